"""Standing loads of debris as the statics take them."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.errors import InputError
from racewright.holding.debris_table import DragCoefficient
from racewright.holding.strike_figure import HELD, SafetyFigure
from racewright.machine.drive_checks import finite, number
from racewright.safety import SafetyBasis

Vector = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class DebrisLoad:
    """A named standing load on machine or lines.

    Attributes
    ----------
    name : str
    force : tuple of float
        x downstream, y to the left of it, z up [N].
    point : tuple of float
        Where it acts, from the machine's reference, same axes [m].
    moment : tuple of float
        Of the force about the reference [N m].
    drag_area : float
        Drag coefficient times projected area [m2].
    area : float
        Projected on the stream [m2].
    along : SafetyFigure
        Force along the stream with its range, basis, edition and caution [N].
    safety : SafetyBasis
        The same for force and moment.
    """

    name: str
    force: Vector
    point: Vector
    moment: Vector
    drag_area: float
    area: float
    along: SafetyFigure
    safety: SafetyBasis


def drag_load(
    name: str,
    area: float,
    coefficient: DragCoefficient,
    stream_speed: float,
    water_density: float,
    point: Vector,
    side: float = 0.0,
) -> DebrisLoad:
    """Force rho U^2 C_D A/2 along the stream at a point.

    Parameters
    ----------
    name : str
    area : float
        Projected on the stream, >= 0 [m2].
    coefficient : DragCoefficient
    stream_speed : float
        0 to 20 [m/s].
    water_density : float
        990 to 1040 [kg/m3].
    point : tuple of float
        From the machine's reference: x downstream, y across, z up [m].
    side : float
        Force across the stream over the force along it [-].
    """
    across = number(f"The side share of {name!r}", side, -10.0, 10.0)
    a = number(f"The area of {name!r}", area, 0.0, 1e6, "m2")
    u = number("The stream's speed", stream_speed, 0.0, 20.0, "m/s")
    rho = number("The water's density", water_density, 990.0, 1040.0, "kg/m3")
    at = finite(f"The point of {name!r}", point)
    if at.shape != (3,):
        raise InputError(f"the point of {name!r} wants x, y and z; it has {at.size} numbers")
    push = 0.5 * rho * u * u * a
    force = push * coefficient.value
    along = SafetyFigure(
        name=f"{name}: force along the stream",
        unit="N",
        low=push * coefficient.low,
        value=force,
        high=push * coefficient.high,
        safety=SafetyBasis(
            f"rho U^2 C_D A/2, C_D {coefficient.low:g} to {coefficient.high:g}: {coefficient.basis}",
            coefficient.edition,
            coefficient.status,
            HELD,
        ),
    )
    x, y, z = (float(one) for one in at)
    return DebrisLoad(
        name=name,
        force=(force, across * force, 0.0),
        point=(x, y, z),
        moment=(-z * across * force, z * force, (x * across - y) * force),
        drag_area=a * coefficient.value,
        area=a,
        along=along,
        safety=along.safety,
    )
