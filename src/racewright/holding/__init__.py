"""How the machine is held: lines, equilibrium, stability, what one lost line or a low level does."""

from __future__ import annotations

from racewright.holding.body import Body, cylinder_outline
from racewright.holding.layout import Layout
from racewright.holding.line import LineShape, line
from racewright.holding.line_segment import Segment, grown
from racewright.holding.line_table import breaking_strength, segment
from racewright.holding.load_state import LoadState, steady_state, still
from racewright.holding.ring_wing import RingWing, ring_wing
from racewright.holding.safety import Safety, StrengthFactor
from racewright.holding.statics import equilibrium
from racewright.holding.statics_result import Equilibrium, LineLoad, Reason, Stability
from racewright.holding.stream import Stream
from racewright.holding.tether import Bridle, FixedPoint, Tether

__all__ = [
    "Body",
    "Bridle",
    "Equilibrium",
    "FixedPoint",
    "Layout",
    "LineLoad",
    "LineShape",
    "LoadState",
    "Reason",
    "RingWing",
    "Safety",
    "Segment",
    "Stability",
    "Stream",
    "StrengthFactor",
    "Tether",
    "breaking_strength",
    "cylinder_outline",
    "equilibrium",
    "grown",
    "line",
    "ring_wing",
    "segment",
    "steady_state",
    "still",
]
