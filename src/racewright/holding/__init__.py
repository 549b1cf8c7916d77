"""How the machine is held: lines, equilibrium, stability, what one lost line or a low level does."""

from __future__ import annotations

from racewright.holding.body import Body, cylinder_outline
from racewright.holding.floating import Metacentre, depth_froude, held_pitch, held_roll, natural_period, pontoon
from racewright.holding.layout import Layout
from racewright.holding.layout_lines import LineChoice, line_choices, stiffness_at
from racewright.holding.layout_proposals import propose_bridle_width, propose_buoyancy
from racewright.holding.line import LineShape, line
from racewright.holding.line_segment import Segment, grown
from racewright.holding.line_table import breaking_strength, segment
from racewright.holding.load_state import LoadState, steady_state, still
from racewright.holding.ring_wing import RingWing, ring_wing
from racewright.holding.safety import StrengthFactor
from racewright.holding.statics import equilibrium
from racewright.holding.statics_lost import one_line_lost
from racewright.holding.statics_low_water import LowWater, low_water
from racewright.holding.statics_result import Equilibrium, LineLoad, Reason, Stability
from racewright.holding.statics_sweep import Statics, statics
from racewright.holding.statics_watch import WatchCircle, watch_circle
from racewright.holding.statics_worst import Utilisation, WorstLine, worst_lines
from racewright.holding.stream import Stream
from racewright.holding.strike_first_blow import first_blow
from racewright.holding.tether import Bridle, FixedPoint, Tether

__all__ = [
    "Body",
    "Bridle",
    "Equilibrium",
    "FixedPoint",
    "Layout",
    "LineChoice",
    "LineLoad",
    "LineShape",
    "LoadState",
    "LowWater",
    "Metacentre",
    "Reason",
    "RingWing",
    "Segment",
    "Stability",
    "Statics",
    "Stream",
    "StrengthFactor",
    "Tether",
    "Utilisation",
    "WatchCircle",
    "WorstLine",
    "breaking_strength",
    "cylinder_outline",
    "depth_froude",
    "equilibrium",
    "first_blow",
    "grown",
    "held_pitch",
    "held_roll",
    "line",
    "line_choices",
    "low_water",
    "natural_period",
    "one_line_lost",
    "pontoon",
    "propose_bridle_width",
    "propose_buoyancy",
    "ring_wing",
    "segment",
    "statics",
    "steady_state",
    "stiffness_at",
    "still",
    "watch_circle",
    "worst_lines",
]
