"""Rules of the first sizing: shapes over the throat diameter, and the figures that go with them.

Each rule says its source or 'own choice'. Lengths are over the throat diameter where they are not in metres.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

ShapeName = Literal["mild", "middle", "wide"]


@dataclass(frozen=True)
class Shape:
    """One family of ducts.

    Attributes
    ----------
    exit_area_ratio : float
        Exit over throat area [-].
    length : float
        Duct length over throat diameter [-].
    speed_ratio : float
        u at the design head coefficient, from this program's own flow solver (80 panels a side) [-].
    annulus_share : float
        Rotor annulus over the throat's full circle [-].
    outer_share : float
        Largest over throat diameter [-].
    """

    exit_area_ratio: float
    length: float
    speed_ratio: float
    annulus_share: float
    outer_share: float


SHAPES: dict[ShapeName, Shape] = {
    "mild": Shape(1.25, 0.9, 0.771, 0.9466, 1.216),
    "middle": Shape(1.5, 1.2, 0.980, 0.9454, 1.299),
    "wide": Shape(1.8, 1.5, 1.224, 0.9421, 1.394),
}
"""Lengths so that the mean half-angle behind the throat is 5.2, 6.9 and 8.0 degrees: conical diffusers stayed
attached up to 7 (see `machine.diffuser`); the wide one buys power with that risk. Own choice within it."""

DUCT_THICKNESS = 0.12
"""Thickness over length; a thinner section lets more water in, a thicker one holds buoyancy. Own choice [-]."""
HUB_SHARE = 0.26
"""Hub over throat diameter: room for a generator, little annulus lost. Own choice; the hydropower rule 0.25 +
0.0951/nQE (ESHA 2004) does not hold at so small a head [-]."""
NOSE_X, NOSE_LENGTH, CYLINDER_LENGTH, TAIL_LENGTH = -0.1, 0.15, 0.42, 0.5
"""The hub along the axis. Own choice [-]."""
VANES_X, ROTOR_X = 0.16, 0.38
"""Mid-chords: both rows on the cylinder, near the throat, a gap of a tenth between them. Own choice [-]."""
VANE_COUNT, BLADE_COUNT = 7, 5
"""No common divisor, so that no two blades pass vanes at once (common practice, no source)."""
VANE_HUB_CHORD, VANE_TIP_CHORD = 0.16, 0.20
BLADE_HUB_CHORD, BLADE_TIP_CHORD = 0.15, 0.18
"""Chord over pitch 0.29 at the blade tips to 1.4 at the vane roots: free-vortex turning at the design head without
stall in the row model. Own choice [-]."""
ROW_THICKNESS = 0.12
"""Thickness over chord of vanes and blades. Own choice [-]."""

HEAD_COEFFICIENT = 0.6
"""Design CH: power is within 1 % of its best, at 0.65, in all three ducts by this program's flow solver, and thrust
and the risk of clogging fall with CH. Own choice [-]."""
TIP_SPEED_RATIO = 2.0
"""Slow for fish and debris; at 1.6 the mild duct's blade roots would want 67 degrees of camber. Own choice [-]."""
DRIVE_EFFICIENCY = 0.85
"""Electrical over shaft power, gear and generator with converter (common practice, no source) [-]."""

LEAST_THROAT = 0.1
"""Smallest throat diameter proposed. Own choice [m]."""
LARGEST_OVERALL = 25.0
"""Largest overall diameter of one machine, about the largest tidal rotors built (from memory) [m]."""
COVER_SHARE = BED_SHARE = 0.2
LEAST_COVER = LEAST_BED_CLEARANCE = 0.3
"""Water above and below the duct: a fifth of the overall diameter, 0.3 m at least, for waves, floating and rolling
debris. Own choice; the local rules for navigation and ice go first [-], [m]."""

SLOW_STREAM = 1.0
"""Stream speed below which a machine hardly pays (common practice, no source) [m/s]."""
FISH_TIP_SPEED = 5.0
"""Strikes below 4.8 to 5 m/s killed practically no trout (EPRI laboratory series 2008-11, from memory) [m/s]."""
LEAST_CAVITATION = 2.0
"""Cavitation number at the highest blade tip that a sound section bears, about 0.5 above -cp_min of a 12 % section
at 4 degrees (1.54). Own choice [-]."""


def tip_clearance(throat_diameter: float) -> float:
    """Gap at the blade tips [m]: 4 mm x (D/1 m)^0.6, 1 mm at least.

    0.2 to 0.5 % of the diameter in small units, 0.05 to 0.1 % in large hydraulic ones (from memory). Own choice.
    """
    return max(4e-3 * math.pow(throat_diameter, 0.6), 1e-3)


def stage_efficiency(reynolds: float) -> float:
    """Shaft power over rho dh Q [-]: 1 - 0.06 (Re/5e5)^-0.15, Re the blades' chord Reynolds number at mid-span.

    Fitted to this program's own stage: three ducts, throats of 0.25 to 14 m, profile and clearance losses;
    within 0.02 of the solved stage with its end walls.
    """
    return 1.0 - 0.06 * math.pow(max(reynolds, 1e4) / 5e5, -0.15)
