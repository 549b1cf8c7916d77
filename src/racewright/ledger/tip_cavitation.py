"""Cavitation number at the highest blade tip, with the throat's own pressure, at the least cover of the place."""

from __future__ import annotations

import math

from racewright.ledger.findings import MachineFindings, TipCavitation
from racewright.ledger.place_inputs import outer_radius
from racewright.place.result import Standing
from racewright.remark import Remark
from racewright.stage.cavitation import STANDARD_ATMOSPHERE, cavitation_number
from racewright.stage.cover import GRAVITY

WANTED = 1.5
"""Cavitation number below which a caution is said: clean thin sections near their design angle reach lowest pressure
coefficients of about -0.5 to -1.5 (from memory). The section solver will replace it."""

_STATES = ("on load", "runaway")


def tip_cavitation(machine: MachineFindings, standings: tuple[Standing, ...]) -> tuple[TipCavitation, ...]:
    """On load and at runaway at each stream speed of the states; empty where no cover is known.

    The pressure at the section is that of the undisturbed water at the tip's depth less the throat's excess speed and
    the head that the rows have taken: rho U^2/2 (u^2 - 1 + CH).
    """
    covers = [s.cover for s in standings if s.cover >= 0.0]
    if not covers:
        return ()
    tip = float(machine.blades.radius[-1])
    depth = min(covers) + outer_radius(machine.unit.duct) - tip
    water, found = machine.water, []
    for state in (s for s in machine.states if s.name in _STATES):
        half = 0.5 * water.density * state.stream_speed**2
        throat = -half * (state.speed_ratio**2 - 1.0 + state.head_coefficient)
        relative = math.hypot(state.speed_ratio * state.stream_speed, state.rotor_speed * tip)
        number = cavitation_number(depth, relative, water.density, water.vapour_pressure, throat_pressure=throat)
        found.append(TipCavitation(state.name, state.stream_speed, depth, relative, throat, number))
    return tuple(found)


def _remedy(worst: TipCavitation) -> str:
    """Depth, where no more than as much again would do; else the speed must come down."""
    more = (WANTED - worst.number) * worst.relative_speed**2 / (2.0 * GRAVITY)
    if more <= worst.depth:
        return f"Hang the machine {more:.1f} m deeper, or turn the rotor slower."
    slower = (
        "Give it a brake that keeps it from running away" if worst.state == "runaway" else "Turn the rotor slower"
    )
    return f"It would take {more:.0f} m more water above it, so depth is no remedy here. {slower}."


def cavitation_remarks(found: tuple[TipCavitation, ...]) -> tuple[Remark, ...]:
    """A caution at the lowest number, where it is low."""
    if not found:
        return ()
    worst = min(found, key=lambda f: f.number)
    if worst.number >= WANTED:
        return ()
    text = (
        f"The cavitation number at the highest blade tip falls to {worst.number:.2f} ({worst.state} at"
        f" {worst.stream_speed:.2f} m/s, {worst.depth:.2f} m down): sections with lowest pressure coefficients below"
        f" {-worst.number:.2f} cavitate. {_remedy(worst)}"
    )
    return (Remark("warning" if worst.number <= 0.0 else "caution", text, "cavitation"),)


def vapour_remarks(machine: MachineFindings, found: tuple[TipCavitation, ...]) -> tuple[Remark, ...]:
    """A warning where the through-flow itself would fall below vapour pressure at the least cover."""
    if not found:
        return ()
    water, depth = machine.water, found[0].depth
    still = STANDARD_ATMOSPHERE + water.density * GRAVITY * depth - water.vapour_pressure
    worst = min(machine.states, key=lambda s: s.lowest_pressure)
    if still + worst.lowest_pressure >= 0.0:
        return ()
    text = (
        f"The through-flow itself would fall {-worst.lowest_pressure - still:.0f} Pa below vapour pressure"
        f" ({worst.name} at {worst.stream_speed:.2f} m/s, {depth:.2f} m down): the water tears, and the figures of"
        " such states do not hold."
    )
    return (Remark("warning", text, "cavitation"),)
