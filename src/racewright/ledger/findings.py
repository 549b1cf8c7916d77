"""Everything computed for one case: what the command line prints as JSON and the dossier draws."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.flow.result import Axisymmetric, Streamlines
from racewright.ledger.drive_findings import DriveFindings
from racewright.ledger.energy_parts import EnergyParts
from racewright.ledger.growth_findings import GrowthFindings
from racewright.ledger.holding_parts import HoldingFindings
from racewright.ledger.neighbours_findings import NeighboursFindings
from racewright.ledger.strength_findings import StrengthFindings
from racewright.ledger.supply_findings import SupplyFindings, UpkeepFindings
from racewright.ledger.trials_findings import TrialsFindings
from racewright.machine.as_built import BuiltRow
from racewright.machine.drive import Drive
from racewright.machine.row import Row
from racewright.machine.unit import Unit
from racewright.place.rating_band import RatingBand
from racewright.place.rating_fit import RatingFit
from racewright.place.result import Site
from racewright.place.speed_uncertainty import SpeedCause
from racewright.place.spot import SpotClimate
from racewright.place.tide_result import Tide
from racewright.place.tide_site import TidalSite
from racewright.place.tide_trace import TideTrace
from racewright.remark import Remark
from racewright.stage.bands import PowerBands
from racewright.stage.performance_map import PerformanceMap
from racewright.stage.result import OperatingPoint, PowerCurve, SpeedRatioCurve, State
from racewright.supply.result import Comparison, YearlyEnergy
from racewright.water import Water


@dataclass(frozen=True)
class InputRow:
    """One input as the user wrote it.

    Attributes
    ----------
    key : str
        Dotted scheme key, e.g. 'machine.river_unit.duct.length'.
    text : str
        The value as written, with its unit (untrusted: escape it).
    meaning : str
        What it is, in words.
    source : str
        The user's `source` note for the table, or 'default: <where it comes from>'.
    """

    key: str
    text: str
    meaning: str
    source: str


@dataclass(frozen=True)
class Missing:
    """A chapter that the scheme has no tables for, and what it would need."""

    chapter: str
    needs: str


@dataclass(frozen=True)
class Duty:
    """Who must check what before anyone relies on it."""

    who: str
    what: str


@dataclass(frozen=True)
class Assumption:
    """A stated assumption of the method, with its source and status."""

    text: str
    source: str


@dataclass(frozen=True)
class TipCavitation:
    """Cavitation number at the highest blade tip in one state.

    Attributes
    ----------
    state : str
        'on load' or 'runaway'.
    stream_speed : float
        [m/s]
    depth : float
        Of the tip below the surface, at the least cover of the place [m].
    relative_speed : float
        Blade and axial speed together [m/s].
    throat_pressure : float
        Static pressure at the section less the undisturbed one at the same depth [Pa].
    number : float
        Static pressure above the vapour's over half density times relative speed squared [-].
    """

    state: str
    stream_speed: float
    depth: float
    relative_speed: float
    throat_pressure: float
    number: float


@dataclass(frozen=True)
class MachineFindings:
    """The machine computed.

    Attributes
    ----------
    name, description : str
        Table name and the user's words (untrusted).
    unit : Unit
    drive : Drive
    vanes, blades : Row
        As designed and turned.
    water : Water
    flow : Axisymmetric
        Lengths in m.
    streamlines : Streamlines
        At the design load.
    design_point : OperatingPoint
    curve : SpeedRatioCurve
    power_curve : PowerCurve
    states : tuple of State
        On load, runaway, held, parked and clogged, at the design speed and at the fastest water of the place.
    bands : PowerBands
        Of the design point's power, by cause.
    map : PerformanceMap
        Over stream speed and tip-speed ratio.
    built : (BuiltRow or None, BuiltRow or None)
        What was measured on vanes and blades.
    control : DriveFindings
        The drive: how rated power is held, start, loss of load, braking, mass and cautions.
    cavitation : tuple of TipCavitation
        At the least cover of the place; empty where it is not known.
    """

    name: str
    description: str
    unit: Unit
    drive: Drive
    vanes: Row
    blades: Row
    water: Water
    flow: Axisymmetric
    streamlines: Streamlines
    design_point: OperatingPoint
    curve: SpeedRatioCurve
    power_curve: PowerCurve
    states: tuple[State, ...]
    bands: PowerBands
    map: PerformanceMap
    built: tuple[BuiltRow | None, BuiltRow | None]
    control: DriveFindings
    cavitation: tuple[TipCavitation, ...] = ()


@dataclass(frozen=True)
class PlaceFindings:
    """The place computed.

    Attributes
    ----------
    name, description : str
        Table name and the user's words (untrusted).
    site : Site
    hub_depth : float
        Depth of the axis below the surface at median flow; 0 where it is not known [m].
    bed : tuple of (float, float)
        Transect as (distance across [m], bed level [m]) pairs; empty without one.
    rating : RatingFit or None
        The rating with its gaugings; None where it is stated, or there is none.
    rating_band : RatingBand or None
        From the lowest to the highest level gauged or recorded; None without gaugings.
    spots : SpotClimate or None
        The estimate from spot speeds; None where the place has a record.
    speed_causes : tuple of SpeedCause
        What the speed at the machine is unsure by.
    tide : Tide or None
        Harmonic analysis; None without a tide.
    tidal_site : TidalSite or None
        Flood, ebb, rhythm, and what the turning machine meets.
    tide_trace : TideTrace or None
        The record beside the tide; None where constants come from a table.
    """

    name: str
    description: str
    site: Site
    hub_depth: float
    bed: tuple[tuple[float, float], ...]
    rating: RatingFit | None = None
    rating_band: RatingBand | None = None
    spots: SpotClimate | None = None
    speed_causes: tuple[SpeedCause, ...] = ()
    tide: Tide | None = None
    tidal_site: TidalSite | None = None
    tide_trace: TideTrace | None = None


@dataclass(frozen=True)
class CommunityFindings:
    """The community and the comparison with its diesel."""

    name: str
    description: str
    comparison: Comparison


@dataclass(frozen=True)
class Findings:
    """One case of one scheme, computed.

    Attributes
    ----------
    title, case : str
        The scheme's title and the case's name (untrusted text).
    version, scheme_hash : str
        Program version; SHA-256 of scheme and data files, hex.
    invented : tuple of str
        Sentences that say what is invented; shown on page one.
    machine, place, energy, community
        None where the scheme has no table for it.
    inputs, assumptions, missing, duties, remarks
        Tables for the dossier; remarks are sorted, worst first.
    count : int
        Number of equal machines of the case; `machine` and `energy` are of one, `community` is of all.
    left_out : tuple of str
        What this version does not compute, one subject each.
    energy_parts : EnergyParts or None
        Availability, band, months, years, turbulence and river share behind `energy`.
    trials : TrialsFindings or None
        Channel trials of the machine; None where the case has none.
    neighbours : NeighboursFindings or None
        Fish, debris, sound; None where the case has none.
    holding : HoldingFindings or None
        How the machine is held and what strikes it; None where the case has no holding.
    strength : StrengthFindings or None
        Of the machine's parts; None where the machine has no strength table.
    growth : GrowthFindings or None
        Sizes to come, claims, programme; None where the case has none.
    supply : SupplyFindings or None
        The village's hourly year; None where the community has no supply table or the place no dates.
    upkeep : UpkeepFindings or None
        Parts, spares, pieces, recovery; None where the machine has none of them.
    """

    title: str
    case: str
    version: str
    scheme_hash: str
    invented: tuple[str, ...]
    machine: MachineFindings | None
    place: PlaceFindings | None
    energy: YearlyEnergy | None
    community: CommunityFindings | None
    inputs: tuple[InputRow, ...]
    assumptions: tuple[Assumption, ...]
    missing: tuple[Missing, ...]
    duties: tuple[Duty, ...]
    remarks: tuple[Remark, ...]
    count: int
    left_out: tuple[str, ...]
    energy_parts: EnergyParts | None = None
    trials: TrialsFindings | None = None
    neighbours: NeighboursFindings | None = None
    holding: HoldingFindings | None = None
    strength: StrengthFindings | None = None
    growth: GrowthFindings | None = None
    supply: SupplyFindings | None = None
    upkeep: UpkeepFindings | None = None
