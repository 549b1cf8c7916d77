"""A machine drawn larger or smaller with all its shapes kept, and its roughness and gap in proportion."""

from __future__ import annotations

from dataclasses import replace

from racewright.door import within
from racewright.machine.duct import Duct
from racewright.machine.hub import Hub
from racewright.machine.row import Row
from racewright.machine.unit import RowIntent, Unit


def scaled_unit(unit: Unit, factor: float, stream_speed: float) -> Unit:
    """The unit `factor` times as large, meant for another stream speed at its own tip-speed ratio.

    Parameters
    ----------
    unit : Unit
    factor : float
        1e-3 to 1e3 [-].
    stream_speed : float
        Of its design point, 0.01 to 50 [m/s].

    Raises
    ------
    InputError
        A value is not finite or outside its range.
    """
    size = _size(factor)
    speed = within("stream_speed", stream_speed, 0.01, 50.0, "m/s", 3.0)
    return Unit(
        duct=_duct(unit.duct, size),
        hub=_hub(unit.hub, size),
        vanes=_intent(unit.vanes, size),
        blades=_intent(unit.blades, size),
        design=replace(unit.design, stream_speed=speed),
        roughness=unit.roughness * size,
    )


def scaled_row(row: Row, factor: float) -> Row:
    """The row `factor` times as large, 1e-3 to 1e3; angles, counts and thickness over chord stay.

    Raises
    ------
    InputError
        The factor is not finite or outside its range.
    """
    size = _size(factor)
    return replace(
        row,
        place_x=row.place_x * size,
        radius=row.radius * size,
        chord=row.chord * size,
        clearance=row.clearance * size,
    )


def _size(factor: float) -> float:
    return within("factor", factor, 1e-3, 1e3, "", 14.0)


def _duct(duct: Duct, size: float) -> Duct:
    return replace(duct, throat_radius=duct.throat_radius * size, length=duct.length * size)


def _hub(hub: Hub, size: float) -> Hub:
    return Hub(
        radius=hub.radius * size,
        nose_x=hub.nose_x * size,
        nose_length=hub.nose_length * size,
        cylinder_length=hub.cylinder_length * size,
        tail_length=hub.tail_length * size,
    )


def _intent(intent: RowIntent, size: float) -> RowIntent:
    return replace(
        intent,
        place_x=intent.place_x * size,
        hub_chord=intent.hub_chord * size,
        tip_chord=intent.tip_chord * size,
    )
