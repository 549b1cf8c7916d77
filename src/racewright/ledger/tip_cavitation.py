"""Cavitation number at the highest blade tip, with the throat's own pressure, at the least cover of the place."""

from __future__ import annotations

import math

from racewright.ledger.findings import MachineFindings, TipCavitation
from racewright.ledger.place_inputs import outer_radius
from racewright.place.result import Standing
from racewright.remark import Remark
from racewright.stage.cavitation import cavitation_number

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
        f" {-worst.number:.2f} cavitate. Hang the machine deeper, or turn the rotor slower."
    )
    return (Remark("warning" if worst.number <= 0.0 else "caution", text, "cavitation"),)
