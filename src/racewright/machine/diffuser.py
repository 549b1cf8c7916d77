"""How steep the duct opens behind its throat, against what attached flow has been seen to bear."""

from __future__ import annotations

import math

from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_section, throat_x
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


def diffuser_remarks(duct: Duct) -> tuple[Remark, ...]:
    """A caution when the duct opens faster than attached flow is known to follow."""
    found = half_angle(duct)
    if found <= ATTACHED_HALF_ANGLE:
        return ()
    text = (
        f"The duct opens at a mean half-angle of {math.degrees(found):.1f} degrees behind the throat; conical"
        f" diffusers stayed attached up to {math.degrees(ATTACHED_HALF_ANGLE):.0f}. The flow solver knows no"
        " separation: if the flow leaves the wall, power falls below the computed value."
    )
    if found > STEEP_HALF_ANGLE:
        text += " At this angle separation is to be expected."
        return (Remark("warning", text, "separation"),)
    return (Remark("caution", text, "separation"),)
