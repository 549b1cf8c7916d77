"""What is found of a holding: where it hangs and what its lines carry, debris, anchors, proposals."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.holding.anchor_check import AnchorCheck
from racewright.holding.anchor_proof import ProofLoad
from racewright.holding.debris_load import DebrisLoad
from racewright.holding.debris_release import Release
from racewright.holding.layout_lines import LineChoice
from racewright.holding.load_state import LoadState
from racewright.holding.safety import StrengthFactor
from racewright.holding.statics_low_water import LowWater
from racewright.holding.statics_sweep import Statics
from racewright.holding.statics_watch import WatchCircle
from racewright.holding.statics_worst import WorstLine
from racewright.holding.strike_figure import SafetyFigure
from racewright.ledger.struck_findings import StruckBy as StruckBy  # also reached from here
from racewright.ledger.struck_findings import StruckYear as StruckYear
from racewright.remark import Remark

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class HeldLoad:
    """One load state that the holding is asked for.

    Attributes
    ----------
    name : str
        'on load', 'loss of load', 'held', 'clogged 50 %', 'held tree: ...'.
    stream_speed, thrust, roll_moment, drag : ndarray, shape (k,)
        [m/s], [N], [N m], [N].
    drag_x, drag_up : float
        Where `drag` acts, from the duct's leading edge downstream and above the axis [m].
    words : str
        What it is and what it stands on.
    """

    name: str
    stream_speed: Floats
    thrust: Floats
    roll_moment: Floats
    drag: Floats
    drag_x: float
    drag_up: float
    words: str

    @property
    def state(self) -> LoadState:
        """As the statics take it; where the drag acts is the body's."""
        return LoadState(self.name, self.stream_speed, self.thrust, self.roll_moment, self.drag)

    def at(self, speed: float) -> tuple[float, float, float]:
        """Thrust, roll moment and drag at a stream speed [m/s], as the statics take them [N], [N m], [N]."""
        known, *rows = self.state.coefficients
        thrust, roll, drag = (float(np.interp(speed, known, row)) * speed**2 for row in rows)
        return thrust, roll, drag


@dataclass(frozen=True)
class AtDepth:
    """The statics in one depth of water.

    Attributes
    ----------
    label : str
        'fastest water', 'low water (Q95)', 'median', 'high water (Q5)', 'depth given'; after it,
        'stream 10° to the left' where it is turned.
    depth, reference_height : float
        Of the water, and above the bed where the stream's speed is meant: the axis as it is meant to hang [m].
    intact : Statics
    """

    label: str
    depth: float
    reference_height: float
    intact: Statics


@dataclass(frozen=True)
class Held:
    """Where the machine hangs and what its lines carry.

    Attributes
    ----------
    depths : tuple of AtDepth
        In the waters of the place, each up to the fastest stream that goes with that depth; the first is the fastest
        water and sizes the lines. The last two are that water with the stream turned to either side, where it swings.
    lost : tuple of Statics
        One line lost, each in turn, in the first water: stream along x, then turned to either side.
    worst : tuple of WorstLine
        Over all depths, states and speeds.
    factors : tuple of StrengthFactor
    anchor_names : tuple of str
        Anchor of each line, in the order of the lines.
    fixed_points : ndarray, shape (lines, 3)
        Where each line is fixed: x downstream of the machine's intended place, y left, z above the bed [m].
    watch : WatchCircle
        On load in the first water, up to its fastest speed.
    low_water : LowWater
    lowest_water : float or None
        Depth of the record's lowest water, which is among those of `low_water`; None where no record tells it [m].
    cover_wanted, bed_clearance_wanted, roll_wanted : float
        [m], [m], [rad]
    drawn_height : float
        Of the axis above the bed in the water that the layout is drawn for, the median where it is known [m].
    cover, bed_clearance, roll : float
        Least, least and greatest of what settles [m], [m], [rad].
    worst_pose : str
        State, speed and depth of the least cover.
    remarks : tuple of Remark
    """

    depths: tuple[AtDepth, ...]
    lost: tuple[Statics, ...]
    worst: tuple[WorstLine, ...]
    factors: tuple[StrengthFactor, ...]
    anchor_names: tuple[str, ...]
    fixed_points: Floats
    watch: WatchCircle
    low_water: LowWater
    lowest_water: float | None
    cover_wanted: float
    bed_clearance_wanted: float
    roll_wanted: float
    drawn_height: float
    cover: float
    bed_clearance: float
    roll: float
    worst_pose: str
    remarks: tuple[Remark, ...]


@dataclass(frozen=True)
class AnchorFound:
    """One anchor.

    Attributes
    ----------
    name : str
    kind : str
        'deadweight', 'drag', 'screw', 'rock', 'tie'; '' when nothing is said of it.
    lines : tuple of str
        That are made fast to it.
    horizontal, vertical : float
        Of the greatest load with all lines there; vertical below 0 where its lines come down to it [N].
    case : str
        Load case of it.
    check : AnchorCheck or None
        None where the anchor is not described.
    proof : ProofLoad or None
    words : str
        Why there is no check, or ''.
    """

    name: str
    kind: str
    lines: tuple[str, ...]
    horizontal: float
    vertical: float
    case: str
    check: AnchorCheck | None
    proof: ProofLoad | None
    words: str


@dataclass(frozen=True)
class SizeProposal:
    """A size that the wanted factors and clearances ask for.

    Attributes
    ----------
    what : str
        'net buoyancy', 'fairleads from the middle plane'.
    now, proposed : float
        As it is, and the least that does; `proposed` is `now` where nothing was found [unit].
    unit : str
        'N' or 'm'.
    drives : str
        Load case that asks for it.
    words : str
        What it does, or why there is no answer.
    found : bool
    """

    what: str
    now: float
    proposed: float
    unit: str
    drives: str
    words: str
    found: bool


@dataclass(frozen=True)
class StiffnessTrade:
    """One kind of line of the wanted strength, and what a strike makes of it where all tethers are alike.

    Attributes
    ----------
    choice : LineChoice
    tethers : tuple of str
        That hold against the log: not slack, and stretched by a shift downstream.
    stiffness : float
        Of these together along the stream, each of this kind and size, at its own length and slant [N/m].
    slow_tension : SafetyFigure
        Pull of all lines together along the stream after the hardest strike; the slow answer, not the blow [N].
    travel : float
        Way that the machine gives [m].
    first_force : SafetyFigure
        First blow, which the line's stiffness does not change [N].
    """

    choice: LineChoice
    tethers: tuple[str, ...]
    stiffness: float
    slow_tension: SafetyFigure
    travel: float
    first_force: SafetyFigure


@dataclass(frozen=True)
class HoldingHelp:
    """Sizes for wanted factors and clearances.

    Attributes
    ----------
    line : str
        The line that comes nearest to its strength.
    case, state : str
        Load case that sizes it.
    stream_speed, tension, wanted_strength : float
        [m/s], [N], [N]
    choices : tuple of LineChoice
        Least size of each kind.
    trade : tuple of StiffnessTrade
        Of the same choices, empty without a strike.
    proposals : tuple of SizeProposal
    """

    line: str
    case: str
    state: str
    stream_speed: float
    tension: float
    wanted_strength: float
    choices: tuple[LineChoice, ...]
    trade: tuple[StiffnessTrade, ...]
    proposals: tuple[SizeProposal, ...]


@dataclass(frozen=True)
class DebrisHeld:
    """One thing that stays, and what it does to the weak link.

    Attributes
    ----------
    name, kind : str
    stream_speed : float
        Fastest water of the place, or of the machine's map without one [m/s].
    load : DebrisLoad
        For a raft: as large as it is at the time given, when it is cleared.
    size_words : str
    release : Release or None
        None without a weak link.
    """

    name: str
    kind: str
    stream_speed: float
    load: DebrisLoad
    size_words: str
    release: Release | None
