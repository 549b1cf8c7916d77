"""The dataclasses that the values of supply, upkeep and money are made of."""

from __future__ import annotations

from racewright.ledger.money_things import Mover, PlanMoney, SupplyMoney
from racewright.ledger.supply_things import HourDays, HourLoad, HourMachine, SupplyBand, SupplyYear
from racewright.ledger.upkeep_things import Recovery, RecoveryCase
from racewright.supply.delivery import Delivered
from racewright.supply.dispatch_result import Dispatch, SetYear
from racewright.supply.options import SupplyOption
from racewright.supply.quantiles import Quantiles
from racewright.supply.stops_drawn import StopCause
from racewright.upkeep.carrying import Carried, CarryingRow
from racewright.upkeep.parts_availability import PartRow, PartsAvailability
from racewright.upkeep.pieces import PieceWeights
from racewright.upkeep.recovery import RecoveryPull
from racewright.upkeep.spares import SpareRow, Spares

SUPPLY_CLASSES: tuple[type, ...] = (
    Carried, CarryingRow, Delivered, Dispatch, HourDays, HourLoad, HourMachine, Mover, PartRow, PartsAvailability,
    PieceWeights, PlanMoney, Quantiles, Recovery, RecoveryCase, RecoveryPull, SetYear, SpareRow, Spares, StopCause,
    SupplyBand, SupplyMoney, SupplyOption, SupplyYear,
)  # fmt: skip
