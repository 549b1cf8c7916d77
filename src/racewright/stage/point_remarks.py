"""What the reader of an operating point must be told."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.remark import Remark
from racewright.stage.result import SectionState
from racewright.stage.thin_row import LOW_REYNOLDS

CAUTION_EXIT_POWER = 0.55
WARNING_EXIT_POWER = 0.60
"""Measured ducted devices stop near here on the exit area (common practice, no source) [-]."""
HEAD_SPREAD = 0.20
WIDE_CLEARANCE = 0.02
UNSETTLED = 0.03
"""Change of the axial speed in the last sweep of radial equilibrium that is told [-]. Own choice."""


def point_remarks(
    *,
    exit_power_coefficient: float,
    shaft_power: float,
    vane_state: tuple[SectionState, ...],
    blade_state: tuple[SectionState, ...],
    least_reynolds: float,
    clearance: float,
    head: NDArray[np.float64],
    residual: float,
    closed_above: float | None,
    load: float,
    unsettled: float,
    breakdown: bool,
) -> tuple[Remark, ...]:
    """Remarks of one operating point; `clearance` over tip radius, `head` by section [J/kg].

    `closed_above` is the last solved load where the closure answers, `unsettled` the last change of axial speed by
    radial equilibrium over its mean.
    """
    found: list[Remark] = []
    if abs(residual) > 1e-10:
        found.append(Remark("warning", f"Load and flow disagree by {residual:.2g}: not converged.", "convergence"))
    if closed_above is not None:
        found.append(
            Remark(
                "warning",
                f"The load {load:.3f} is above {closed_above:.3f}, the last that the flow was solved at: flow, power "
                "and thrust come from an empirical closure.",
                "closure",
            )
        )
    if unsettled > UNSETTLED:
        found.append(
            Remark(
                "caution",
                f"Rows and radial equilibrium still disagree by {100 * unsettled:.0f} % of the axial speed.",
                "radial equilibrium",
            )
        )
    if breakdown:
        found.append(
            Remark(
                "note",
                "The vortex behind the hub turns so fast that it is likely to burst; its suction on the tail is then "
                "too high here.",
                "hub vortex",
            )
        )
    if exit_power_coefficient > WARNING_EXIT_POWER:
        found.append(
            Remark(
                "warning",
                f"Power coefficient {exit_power_coefficient:.2f} on the exit area is above 0.60: no measured "
                "ducted device that is known here reached it for long. Take the power as too high.",
                "exit power",
            )
        )
    elif exit_power_coefficient > CAUTION_EXIT_POWER:
        found.append(
            Remark(
                "caution",
                f"Power coefficient {exit_power_coefficient:.2f} on the exit area is above 0.55, near the "
                "best that measured ducted devices reach.",
                "exit power",
            )
        )
    if shaft_power < 0.0:
        found.append(
            Remark(
                "warning",
                f"The shaft must be driven with {-shaft_power:.0f} W at this speed.",
                "driven rotor",
            )
        )
    for name, states in (("vane", vane_state), ("blade", blade_state)):
        found.extend(_sections(name, states))
    if least_reynolds < LOW_REYNOLDS:
        found.append(
            Remark(
                "caution",
                f"Least chord Reynolds number {least_reynolds:.2g}, below 2e5: drag is known within +-30 % "
                "and outlet angles within +-2 degrees there.",
                "Reynolds number",
            )
        )
    if clearance > WIDE_CLEARANCE:
        found.append(
            Remark(
                "caution",
                f"Tip clearance {100 * clearance:.1f} % of the tip radius is wide; published clearance "
                "losses differ by a factor of two.",
                "tip clearance",
            )
        )
    elif clearance <= 0.0:
        found.append(
            Remark(
                "note",
                "No tip clearance: no rotor runs without a gap, so power is too high.",
                "tip clearance",
            )
        )
    spread = float(np.ptp(head)) / max(abs(float(np.mean(head))), 1e-300)
    if spread > HEAD_SPREAD:
        found.append(
            Remark(
                "caution",
                f"The head drop differs by {100 * spread:.0f} % between the sections; the flow "
                "carries its mean only.",
                "head spread",
            )
        )
    return tuple(found)


def _sections(name: str, states: tuple[SectionState, ...]) -> list[Remark]:
    found = []
    for state, word, severity in (
        ("stalled", "stalled: lift and drag there are a stated guess", "warning"),
        ("extrapolated", "outside the row model's stated range", "caution"),
    ):
        where = [str(i + 1) for i, s in enumerate(states) if s == state]
        if where:
            text = f"{name.capitalize()} sections {', '.join(where)} of {len(states)} (hub to tip) are {word}."
            found.append(Remark("warning" if severity == "warning" else "caution", text, f"{name} sections"))
    return found
