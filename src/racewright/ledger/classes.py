"""The dataclasses that node values are made of."""

from __future__ import annotations

from racewright.flow.result import Axisymmetric, Streamlines
from racewright.ledger.store import Classes
from racewright.machine.row import Row
from racewright.place.result import Calendar, DurationCurve, OutageShare, Site, SpeedClimate, Standing
from racewright.remark import Remark
from racewright.stage.result import Losses, OperatingPoint, PowerCurve, SpeedRatioCurve, State, Triangles
from racewright.supply.result import Comparison, DieselCost, LevelisedCost, YearlyEnergy
from racewright.uncertainty import Band
from racewright.water import Water

_KEPT: tuple[type, ...] = (
    Axisymmetric, Band, Calendar, Comparison, DieselCost, DurationCurve, LevelisedCost, Losses, OperatingPoint,
    OutageShare, PowerCurve, Remark, Row, Site, SpeedClimate, SpeedRatioCurve, Standing, State, Streamlines,
    Triangles, Water, YearlyEnergy,
)  # fmt: skip

CLASSES: Classes = {kept.__name__: kept for kept in _KEPT}
"""By name, for the cache."""
