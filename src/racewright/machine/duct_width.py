"""How wide a duct is at least, told from its numbers alone; loads no numerical library."""

from __future__ import annotations

import math

from racewright.machine.duct import Duct

_THICKEST_TURN = 0.2
"""Turn of a circular-arc mean line from its chord at 0.3 of the chord, where the section is thickest, over camber."""
_EDGE_SLOPE = 1.22
"""Half-thickness slope at the trailing edge over thickness / chord, rounded up: a thick duct turns in by it."""
_MOST_CAMBER = math.radians(60.0)


def least_across(duct: Duct) -> float:
    """Diameter that the duct's outer side is sure to reach [m]: its widest circle is at most some hundredths wider.

    The largest of the exit, the inlet where given, and the throat with the section's whole thickness outside it,
    leaned as far as its chord and camber can lean it.
    """
    throat, end = duct.throat_radius, duct.throat_radius * math.sqrt(duct.exit_area_ratio)
    if duct.inlet_area_ratio is None:
        nose, camber = throat, abs(duct.camber)
        inwards = math.atan(_EDGE_SLOPE * duct.thickness) + 0.5 * camber
    else:
        nose, camber, inwards = throat * math.sqrt(duct.inlet_area_ratio), _MOST_CAMBER, 0.0
    chord = math.asin(min(1.0, abs(end - nose) / duct.length))
    lean = min(max(chord, inwards) + _THICKEST_TURN * camber, 0.5 * math.pi)
    return 2.0 * max(end, nose, throat + duct.thickness * duct.length * math.cos(lean))
