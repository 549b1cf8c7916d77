"""The dataclasses that node values are made of."""

from __future__ import annotations

from racewright.flow.result import Axisymmetric, Streamlines
from racewright.ledger.drive_classes import DRIVE_CLASSES
from racewright.ledger.growth_classes import GROWTH_CLASSES
from racewright.ledger.holding_classes import HOLDING_CLASSES
from racewright.ledger.neighbours_classes import NEIGHBOURS_CLASSES
from racewright.ledger.store import Classes
from racewright.ledger.strength_classes import STRENGTH_CLASSES
from racewright.ledger.supply_classes import SUPPLY_CLASSES
from racewright.ledger.tide_classes import TIDE_CLASSES
from racewright.ledger.trials_classes import TRIALS_CLASSES
from racewright.machine.as_built import BuiltRow, Deviation
from racewright.machine.row import Row
from racewright.place.discharge import Discharge
from racewright.place.rating import Rating
from racewright.place.rating_band import RatingBand
from racewright.place.rating_fit import RatingFit
from racewright.place.result import Calendar, DurationCurve, OutageShare, Site, SpeedClimate, Standing
from racewright.place.speed_uncertainty import SpeedCause
from racewright.place.spot import SpotClimate
from racewright.remark import Remark
from racewright.stage.bands import CauseBand, PowerBands
from racewright.stage.parts import Forces, HubCore, OutsideBook
from racewright.stage.performance_map import PerformanceMap
from racewright.stage.result import Losses, OperatingPoint, PowerCurve, SpeedRatioCurve, State, Triangles
from racewright.supply.availability import Availability, LostTime
from racewright.supply.months import MonthlyEnergy, MonthRow
from racewright.supply.resample import Resampled
from racewright.supply.result import Comparison, DieselCost, LevelisedCost, YearlyEnergy
from racewright.supply.river_share import RiverShare
from racewright.supply.speed_band import BandRow, EnergyBand
from racewright.supply.spread import Spread
from racewright.supply.turbulence import Turbulence
from racewright.supply.years import YearlySpread
from racewright.uncertainty import Band
from racewright.water import Water

_KEPT: tuple[type, ...] = (
    Availability, Axisymmetric, Band, BandRow, BuiltRow, Calendar, CauseBand, Comparison, Deviation, DieselCost,
    Discharge, DurationCurve, EnergyBand, Forces, HubCore, LevelisedCost, Losses, LostTime, MonthRow, MonthlyEnergy,
    OperatingPoint, OutageShare, OutsideBook, PerformanceMap, PowerBands, PowerCurve, Rating, RatingBand, RatingFit,
    Remark, Resampled, RiverShare, Row, Site, SpeedCause, SpeedClimate, SpeedRatioCurve, SpotClimate, Spread,
    Standing, State, Streamlines, Triangles, Turbulence, Water, YearlyEnergy, YearlySpread,
)  # fmt: skip

_EVERY = (
    *_KEPT,
    *DRIVE_CLASSES,
    *GROWTH_CLASSES,
    *HOLDING_CLASSES,
    *NEIGHBOURS_CLASSES,
    *STRENGTH_CLASSES,
    *SUPPLY_CLASSES,
    *TIDE_CLASSES,
    *TRIALS_CLASSES,
)
CLASSES: Classes = {kept.__name__: kept for kept in _EVERY}
"""By name, for the cache; names are all different."""
