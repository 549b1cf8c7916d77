"""What `tethers` and `strike` print as JSON: every number on an object that says how to read it."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.holding.safety import StrengthFactor
from racewright.holding.statics_low_water import LowWater
from racewright.holding.statics_table import StaticsTable
from racewright.holding.statics_watch import WatchCircle
from racewright.holding.statics_worst import WorstLine
from racewright.holding.strike_blow import FirstBlow
from racewright.holding.strike_estimates import CodeEstimate
from racewright.holding.strike_figure import SafetyFigure
from racewright.holding.strike_fixed import HeldRow
from racewright.ledger.holding_findings import AnchorFound, DebrisHeld, HoldingHelp
from racewright.ledger.holding_worst import StateWorst
from racewright.ledger.struck_findings import StruckLog, YearChances
from racewright.remark import Remark
from racewright.safety import SafetyBasis


@dataclass(frozen=True)
class InDepth:
    """The depth of water that what stands beside it belongs to.

    Attributes
    ----------
    label : str
        Of the depth of water.
    depth : float
        [m]
    """

    label: str
    depth: float


@dataclass(frozen=True)
class Poses(StaticsTable, InDepth):
    """Pose and slow tensions over load states (s) and stream speeds (u), with lines (n); null where nothing settled.

    Attributes
    ----------
    safety : tuple of SafetyBasis
        Of pose and clearances; of the tensions.
    """

    safety: tuple[SafetyBasis, ...]


@dataclass(frozen=True)
class Extremes:
    """Least and greatest of all that settles, beside what is wanted.

    Attributes
    ----------
    cover, bed_clearance, roll : float
        Least, least and greatest [m], [m], [rad].
    cover_wanted, bed_clearance_wanted, roll_wanted : float
        [m], [m], [rad]
    lowest_water : float or None
        Depth of the record's lowest water; null where no record tells it [m].
    where : str
        State, speed and depth of the least cover.
    safety : SafetyBasis
    """

    cover: float
    bed_clearance: float
    roll: float
    cover_wanted: float
    bed_clearance_wanted: float
    roll_wanted: float
    lowest_water: float | None
    where: str
    safety: SafetyBasis


@dataclass(frozen=True)
class AnchorTold:
    """One anchor.

    Attributes
    ----------
    anchor : AnchorFound
        Its loads, check and pull test.
    safety : SafetyBasis
        Of its loads; check and pull test carry their own.
    """

    anchor: AnchorFound
    safety: SafetyBasis


@dataclass(frozen=True)
class SizesTold:
    """Sizes for the wanted factors and clearances.

    Attributes
    ----------
    sizes : HoldingHelp
        Choices of line, the trade of their stiffness, buoyancy and bridle, and what drives them.
    safety : tuple of SafetyBasis
        Of the tension that drives the lines; of what was searched.
    """

    sizes: HoldingHelp
    safety: tuple[SafetyBasis, ...]


@dataclass(frozen=True)
class TethersPrinted:
    """How the machine is held.

    Attributes
    ----------
    name : str
        Of the [holding.*] table.
    invented : bool
        The scheme says that it is made up.
    states : tuple of str
        Load states that were asked, each with what it stands on.
    by_state : tuple of StateWorst
        Each load state in its worst case, intact and with one line lost.
    worst : tuple of WorstLine
        Each line in its worst load case, intact and with one line lost.
    factors : tuple of StrengthFactor
        That slow tensions are set against.
    extremes : Extremes
    poses : tuple of Poses
        In each depth of the place.
    lost : tuple of Poses
        Each tether lost in turn, in the fastest water.
    watch : WatchCircle
        As the stream turns.
    low_water : LowWater
        As the water falls.
    anchors : tuple of AnchorTold
    debris : tuple of DebrisHeld
        What is held, and what the weak link makes of it.
    sizes : SizesTold or None
        None where no load case settles.
    remarks : tuple of Remark
    """

    name: str
    invented: bool
    states: tuple[str, ...]
    by_state: tuple[StateWorst, ...]
    worst: tuple[WorstLine, ...]
    factors: tuple[StrengthFactor, ...]
    extremes: Extremes
    poses: tuple[Poses, ...]
    lost: tuple[Poses, ...]
    watch: WatchCircle
    low_water: LowWater
    anchors: tuple[AnchorTold, ...]
    debris: tuple[DebrisHeld, ...]
    sizes: SizesTold | None
    remarks: tuple[Remark, ...]


@dataclass(frozen=True)
class OutcomeTold:
    """What became of the log at one friction.

    Attributes
    ----------
    friction : float
        [-]
    ending : str
    time_to_clear : float or None
        From the first touch; null where it does not clear [s].
    touches : int
        [-]
    touch_time : float
        [s]
    slow_tension : SafetyFigure or None
        Null also where the machine turns too far for the lines' linear stiffness [N].
    shift, yaw : float
        Of the machine, greatest [m], [rad].
    safety : SafetyBasis
    """

    friction: float
    ending: str
    time_to_clear: float | None
    touches: int
    touch_time: float
    slow_tension: SafetyFigure | None
    shift: float
    yaw: float
    safety: SafetyBasis


@dataclass(frozen=True)
class StrikeTold(StruckLog):
    """One log that strikes.

    Attributes
    ----------
    first_blow : FirstBlow or None
        Milliseconds, by published contact; null where the log passes by.
    slow_tension : SafetyFigure or None
        Of the lines, seconds later [N].
    slow_time : float or None
        When it is greatest, after the first touch [s].
    parts : bool or None
        The slow tension passes the capacity.
    outcomes : tuple of OutcomeTold
        What becomes of the log, by friction.
    depends_on_friction : bool
        They do not all end alike.
    time_per_friction : float or None
        Change of the time to clear over friction [s].
    beside_fixed : tuple of HeldRow
        On tethers, and rigidly fixed.
    estimates : tuple of CodeEstimate
        Forms of codes, side by side.
    safety : SafetyBasis
        Of the tether's stiffness, pull and capacity.
    """

    first_blow: FirstBlow | None
    slow_tension: SafetyFigure | None
    slow_time: float | None
    parts: bool | None
    outcomes: tuple[OutcomeTold, ...]
    depends_on_friction: bool
    time_per_friction: float | None
    beside_fixed: tuple[HeldRow, ...]
    estimates: tuple[CodeEstimate, ...]
    safety: SafetyBasis


@dataclass(frozen=True)
class YearTold(YearChances):
    """A year of logs.

    Attributes
    ----------
    safety : tuple of SafetyBasis
        Of the first blows; of the line tensions.
    """

    safety: tuple[SafetyBasis, ...]


@dataclass(frozen=True)
class StrikesPrinted:
    """What strikes the machine.

    Attributes
    ----------
    name : str
        Of the [holding.*] table.
    invented : bool
        The scheme says that it is made up.
    logs : tuple of StrikeTold
    year : YearTold or None
        Null where the scheme names no logs that pass.
    """

    name: str
    invented: bool
    logs: tuple[StrikeTold, ...]
    year: YearTold | None


@dataclass(frozen=True)
class HoldingPrinted:
    """A holding as `report` prints it.

    Attributes
    ----------
    tethers : TethersPrinted
        As `tethers` prints it.
    strikes : StrikesPrinted
        As `strike` prints it.
    """

    tethers: TethersPrinted
    strikes: StrikesPrinted
