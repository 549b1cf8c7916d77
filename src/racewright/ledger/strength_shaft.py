"""Shaft and flange under the torques that they meet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from racewright.ledger.strength_findings import ShaftCase, StatePoint
from racewright.ledger.strength_things import checked, material_of
from racewright.safety import safety_basis
from racewright.strength.flange import BoltLoads, bolt_circle, bolt_loads
from racewright.strength.materials import material
from racewright.strength.shaft import ShaftStress, shaft_stress

Table = Mapping[str, Any]
GRAVITY = 9.80665
"""Standard [m/s2]."""


class _Load(NamedTuple):
    """Torque [N m] and thrust [N] in one case."""

    case: str
    torque: float
    thrust: float


def shaft_cases(
    shaft: Table | None,
    flange: Table | None,
    points: tuple[StatePoint, ...],
    rated_torque: float,
    brake_torque: float | None,
    factors: Table,
) -> tuple[ShaftCase, ...]:
    """Each case for shaft and flange; empty where neither is there.

    Parameters
    ----------
    shaft, flange : mapping or None
        Scheme tables.
    points : tuple of StatePoint
    rated_torque : float
        Largest under the way of control [N m].
    brake_torque : float or None
        Of the brake while it slips [N m].
    factors : mapping
    """
    if shaft is None and flange is None:
        return ()
    bending = 0.0 if shaft is None else GRAVITY * shaft["rotor_mass"] * shaft["overhang"]
    return tuple(_case(load, bending, shaft, flange, factors) for load in _loads(points, rated_torque, brake_torque))


def _loads(points: tuple[StatePoint, ...], rated: float, brake: float | None) -> Iterator[_Load]:
    thrust = max((abs(p.forces.rotor) for p in points if p.name == "on load"), default=0.0)
    yield _Load("rated", rated, thrust)
    for name in ("on load", "held"):
        heaviest = max((p for p in points if p.name == name), key=lambda p: abs(p.torque), default=None)
        if heaviest is not None:
            yield _Load(
                f"{name} at {heaviest.stream_speed:.2f} m/s", abs(heaviest.torque), abs(heaviest.forces.rotor)
            )
    if brake is not None:
        yield _Load("braked", brake, max(thrust, *(abs(p.forces.rotor) for p in points)))


def _case(load: _Load, bending: float, shaft: Table | None, flange: Table | None, factors: Table) -> ShaftCase:
    turned: ShaftStress | None = None
    bolts: BoltLoads | None = None
    if shaft is not None:
        notch = shaft["notch"]
        turned = shaft_stress(
            shaft["diameter"], load.torque, bending, load.thrust, bore=shaft["bore"], torsion_factor=notch,
            bending_factor=notch, thrust_factor=notch,
        )  # fmt: skip
    if flange is not None:
        bolts = bolt_loads(
            bolt_circle(flange["bolts"], 0.5 * flange["circle"]), flange["stress_area"], pull=load.thrust,
            bending_x=bending, torque=load.torque, preload=flange["preload"],
        )  # fmt: skip
    return ShaftCase(
        case=load.case,
        torque=load.torque,
        thrust=load.thrust,
        bending=bending,
        stress=turned,
        check=None if turned is None or shaft is None else checked(turned.von_mises, material_of(shaft), factors),
        bolts=bolts,
        bolt_check=None
        if bolts is None or flange is None
        else checked(bolts.largest_stress, material(flange["bolt_class"]), factors),
        safety=safety_basis(
            "structure",
            "torque of the rotor, of the way of control or of the brake; its thrust; the rotor's weight in water "
            "times the overhang; shocks of gear, blows and short circuit left out",
            "2026-11",
            "steady flow as computed; torques as stated",
        ),
    )
