"""What is found of a machine's neighbours: fish, debris, a screen, a trade, sound."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.passage.beside import Beside
from racewright.passage.fate import Fate
from racewright.passage.fish import FishPassage
from racewright.passage.opening import Opening
from racewright.passage.screen_option import ScreenOption
from racewright.passage.trade import TradeRow
from racewright.remark import Remark
from racewright.sound.level_result import SoundLevel


@dataclass(frozen=True)
class FishAt:
    """One kind of fish at one operating point.

    Attributes
    ----------
    condition : str
        'design point' or 'fastest water, on load'.
    stream_speed : float
        [m/s]
    rotor_speed : float
        [rad/s]
    discharge : float or None
        Of the river at that stream speed, between its standings; None where it is not known [m3/s].
    passage : FishPassage or None
        None where there is no answer.
    reason : str
        Why there is none; empty otherwise.
    """

    condition: str
    stream_speed: float
    rotor_speed: float
    discharge: float | None
    passage: FishPassage | None
    reason: str


@dataclass(frozen=True)
class RiverFish:
    """Fish of one kind that come down the river evenly with its water, at one standing.

    Attributes
    ----------
    label : str
        'low water (Q95)', 'median', 'high water (Q5)'.
    discharge, stream_speed : float
        [m3/s], [m/s]
    flow_share : float
        Flow through one machine at the design's speed ratio over the discharge [-].
    struck : float
        Chance to come in and be struck, the design point's chance of a strike taken [-].
    dead_low, dead, dead_high : float
        Chance to come in and die [-].
    """

    label: str
    discharge: float
    stream_speed: float
    flow_share: float
    struck: float
    dead_low: float
    dead: float
    dead_high: float


@dataclass(frozen=True)
class FishFound:
    """One kind of fish of the scheme.

    Attributes
    ----------
    name, kind, title : str
        Name in the scheme (untrusted), packaged class and its words.
    length : float
        Of the fish [m].
    heading : str
        How its body lies.
    avoidance : float
        Share that swims round the machine by the user's statement [-].
    acclimation_depth : float or None
        Depth that it is used to as stated; None where its own water's depth is taken [m].
    at : tuple of FishAt
        By operating point.
    river : tuple of RiverFish
        By standing; empty where no discharge is known.
    """

    name: str
    kind: str
    title: str
    length: float
    heading: str
    avoidance: float
    acclimation_depth: float | None
    at: tuple[FishAt, ...]
    river: tuple[RiverFish, ...]


@dataclass(frozen=True)
class FishBeside:
    """One kind of fish in the machine and in bare fast rotors, at the design point.

    Attributes
    ----------
    name : str
        In the scheme (untrusted).
    beside : Beside
    """

    name: str
    beside: Beside


@dataclass(frozen=True)
class DriftFound:
    """One kind of debris of the scheme.

    Attributes
    ----------
    name : str
        In the scheme (untrusted).
    dose : str or None
        Name of the trials' dose that overrides; None where the geometry answers.
    fate : Fate
    """

    name: str
    dose: str | None
    fate: Fate


@dataclass(frozen=True)
class DebrisFound:
    """Openings of the rows and the fate of what drifts.

    Attributes
    ----------
    opening : Opening
    drift : tuple of DriftFound
        At the design point.
    """

    opening: Opening
    drift: tuple[DriftFound, ...]


@dataclass(frozen=True)
class ScreenFound:
    """Bars across the inlet.

    Attributes
    ----------
    option : ScreenOption
        At the design point's stream speed and rotor speed.
    held_back : tuple of str
        Fish of the scheme that the gaps keep out.
    """

    option: ScreenOption
    held_back: tuple[str, ...]


@dataclass(frozen=True)
class TradeFound:
    """What is moved, one at a time.

    Attributes
    ----------
    fish : str
        Name of the fish whose strikes are told: the longest of the scheme (untrusted).
    length : float
        Of it [m].
    rows : tuple of TradeRow
        The machine as designed first.
    """

    fish: str
    length: float
    rows: tuple[TradeRow, ...]


@dataclass(frozen=True)
class SoundAt:
    """Sound at one operating point.

    Attributes
    ----------
    condition : str
        'design point' or 'fastest water, on load'.
    stream_speed : float
        [m/s]
    rotor_speed : float
        [rad/s]
    level : SoundLevel or None
        None where there is no answer.
    reason : str
        Why there is none; empty otherwise.
    """

    condition: str
    stream_speed: float
    rotor_speed: float
    level: SoundLevel | None
    reason: str


@dataclass(frozen=True)
class NeighboursFindings:
    """The machine's neighbours computed.

    Attributes
    ----------
    name, description : str
        Table name and the user's words (untrusted).
    invented : bool
        True where the scheme says that they are made up.
    hub_depth : float
        Axis below the surface at median flow [m].
    fish : tuple of FishFound
        In order of their names.
    beside : tuple of FishBeside
        The same fish; empty where the design point gives no power.
    debris : DebrisFound
    screen : ScreenFound or None
        None where the scheme has none.
    trade : TradeFound or None
        None where nothing is to be moved.
    sound : tuple of SoundAt
        Empty where the scheme has no sound table.
    remarks : tuple of Remark
        Each once, worst first.
    """

    name: str
    description: str
    invented: bool
    hub_depth: float
    fish: tuple[FishFound, ...]
    beside: tuple[FishBeside, ...]
    debris: DebrisFound
    screen: ScreenFound | None
    trade: TradeFound | None
    sound: tuple[SoundAt, ...]
    remarks: tuple[Remark, ...]
