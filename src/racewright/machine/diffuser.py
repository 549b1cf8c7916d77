"""How steep the duct opens behind its throat, against what attached flow has been seen to bear."""

from __future__ import annotations

import math

import numpy as np

from racewright.machine.duct import Duct
from racewright.machine.duct_contour import throat_x
from racewright.machine.duct_section import duct_section, lowest
from racewright.remark import Remark

ATTACHED_HALF_ANGLE = math.radians(7.0)
"""Half-angle up to which conical diffusers without blowing or swirl stayed attached in several studies (a review
that cites Azad 1996; Gilbert, Oman & Foreman 1978) [rad]."""

STEEP_HALF_ANGLE = math.radians(10.0)
"""Beyond this separation is to be expected without slots or flanges (common practice, no source) [rad]."""


def half_angle(duct: Duct) -> float:
    """Mean half-angle from the throat to the trailing edge, along the inner wall [rad]."""
    section = duct_section(duct)
    exit_radius = duct.throat_radius * math.sqrt(duct.exit_area_ratio)
    return math.atan2(exit_radius - duct.throat_radius, section.length * math.cos(section.angle) - throat_x(duct))


def steepest_wall(duct: Duct) -> tuple[float, float]:
    """Largest angle of the inner wall behind the throat [rad], and its axial place [m]."""
    section = duct_section(duct)
    _drop, root = lowest(section)
    x, r = section.side(np.sqrt(np.linspace(root**2, 1.0, 2001)), -1.0)
    slope = np.arctan2(np.diff(r), np.diff(x))
    worst = int(np.argmax(slope))
    return float(slope[worst]), float(0.5 * (x[worst] + x[worst + 1]))


def diffuser_remarks(duct: Duct) -> tuple[Remark, ...]:
    """A caution when the duct opens faster than attached flow is known to follow.

    The mean half-angle is held against the limits. A cambered duct need not open evenly: its steepest slope is
    told beside it, or as a note where only the slope passes the steep limit.
    """
    found = half_angle(duct)
    slope, place = steepest_wall(duct) if duct_section(duct).camber else (0.0, 0.0)
    steepest = f" The wall is steepest with {math.degrees(slope):.1f} degrees at x = {place:.3g} m." if slope else ""
    if found <= ATTACHED_HALF_ANGLE:
        if slope <= STEEP_HALF_ANGLE:
            return ()
        text = f"The duct opens at a mean half-angle of {math.degrees(found):.1f} degrees behind the throat."
        return (Remark("note", text + steepest, "separation"),)
    text = (
        f"The duct opens at a mean half-angle of {math.degrees(found):.1f} degrees behind the throat; conical"
        f" diffusers stayed attached up to {math.degrees(ATTACHED_HALF_ANGLE):.0f}. The flow solver knows no"
        " separation: if the flow leaves the wall, power falls below the computed value." + steepest
    )
    if found > STEEP_HALF_ANGLE:
        text += " At this angle separation is to be expected."
        return (Remark("warning", text, "separation"),)
    return (Remark("caution", text, "separation"),)
