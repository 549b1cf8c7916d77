"""Stream speeds and tip-speed ratios of the machine's map: where drive and control look things up too."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.stage.balance import FASTEST, settled_ratio
from racewright.stage.stage_ready import Stage

Floats = NDArray[np.float64]

SPEED_STEP = 0.05
"""Step of the power curve over stream speed [m/s]."""
SPEEDS, RATIOS = 15, 41
"""Stream speeds of even steps, beside cut-in and design speed; tip-speed ratios."""
BEYOND_RUNAWAY = 1.06
"""Last tip-speed ratio over the fastest runaway ratio [-]."""
WITHOUT_RUNAWAY = 3.0
"""The same over the design ratio, for a rotor whose runaway is not found. Own choice [-]."""


def map_speeds(cut_in: float, design: float, fastest_water: float) -> Floats:
    """From half the cut-in speed to the fastest water, and at least to 1.6 times the design speed [m/s]."""
    slowest = 0.5 * min(cut_in, design)
    fastest = max(1.6 * design, fastest_water, 1.2 * cut_in)
    even = np.linspace(slowest, fastest, SPEEDS)
    corners = np.array([cut_in, design])
    near = np.abs(even[:, None] - corners).min(axis=1) < 0.2 * (even[1] - even[0])
    near[[0, -1]] = False
    return np.union1d(even[~near], corners)


def map_ratios(stage: Stage, design: float, speeds: Floats) -> Floats:
    """From the held rotor to beyond runaway, the design ratio among them [-]."""
    ends = speeds[[0, -1]]
    settled = settled_ratio(stage, ends, np.full(2, design), np.full(2, FASTEST * design), np.zeros(2))
    found = settled.ratio[settled.found & (settled.ratio > design)]
    last = BEYOND_RUNAWAY * float(found.max()) if found.size else WITHOUT_RUNAWAY * design
    steps = RATIOS - 1
    below = min(max(round(steps * design / last), 4), steps - 4)
    return np.concatenate([np.linspace(0.0, design, below + 1)[:-1], np.linspace(design, last, steps - below + 1)])
