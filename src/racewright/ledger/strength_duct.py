"""The duct as a ring: its section as built, what presses it, what it may bear."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from racewright.ledger.strength_findings import DuctStress
from racewright.ledger.strength_things import checked, material_of
from racewright.ledger.struck_findings import StruckBy
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour
from racewright.safety import safety_basis
from racewright.stage.result import State
from racewright.strength.duct_ring import duct_ring
from racewright.strength.hollow import hollows
from racewright.strength.ring import Ring, ring_loads, ring_pressure
from racewright.strength.section_area import section_area

Table = Mapping[str, Any]
PANELS_A_SIDE = 80


class BuiltRing(NamedTuple):
    """The ring, and its mass along it with flooded hollows [kg/m]."""

    ring: Ring
    mass: float


def built_ring(duct: Duct, part: Table, water_density: float) -> BuiltRing:
    """The duct's section as built: solid, or a skin of even thickness with its hollow full of water."""
    contour: NDArray[np.float64] = np.column_stack(duct_contour(duct, PANELS_A_SIDE))
    holes = () if part["wall"] is None else hollows(contour, part["wall"])
    made_of = material_of(part)
    ring = duct_ring(contour, made_of.elasticity, made_of.poisson, holes)
    water = section_area(contour).area - ring.area
    return BuiltRing(ring, made_of.density * ring.area + water_density * water)


def duct_stress(
    built: BuiltRing, part: Table, states: tuple[State, ...], struck: tuple[StruckBy, ...] | None, factors: Table
) -> DuctStress:
    """Pressure of the through-flow, and a push on one place."""
    worst = min(states, key=lambda state: state.lowest_pressure)
    outside, inside = max(-worst.lowest_pressure, 0.0), max(worst.lowest_pressure, 0.0)
    pressed = ring_pressure(built.ring, outside, inside, part["out_of_round"])
    made_of = material_of(part)
    push, told = _push(part, struck)
    point = None if push is None else ring_loads(built.ring, push)
    return DuctStress(
        radius=built.ring.radius,
        width=built.ring.width,
        wall=part["wall"],
        mass_per_length=built.mass,
        pressure_difference=outside - inside,
        state=f"{worst.name} at {worst.stream_speed:.2f} m/s",
        pressure=pressed,
        pressure_check=checked(part["notch"] * pressed.stress, made_of, factors),
        point_load=push,
        point_from=told,
        point=point,
        point_check=None
        if point is None
        else checked(part["notch"] * (pressed.stress + point.stress), made_of, factors),
        safety=safety_basis(
            "structure",
            "through-flow's lowest pressure taken over the whole inside; a push on one place taken with an equal one "
            "opposite, both across the ring; the vanes' help left out",
            "2026-11",
            "steady flow as computed; the rest own choice, on the safe side",
        ),
    )


def _push(part: Table, struck: tuple[StruckBy, ...] | None) -> tuple[float | None, str]:
    if part["point_load"] is not None:
        return part["point_load"], "stated in the scheme"
    blows = [(one.phases.first.force.high, one.name) for one in struck or () if one.phases is not None]
    if not blows:
        return None, (
            "No push on one place is looked at: no point_load is stated, and the case has no holding with a strike "
            "that meets the machine."
        )
    force, name = max(blows)
    return force, f"first blow of {name}, the stiffest contact"
