"""Supply, upkeep and money of a case, gathered from the graph's values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from racewright.ledger.money_things import SupplyMoney
from racewright.ledger.supply_things import SupplyBand, SupplyYear
from racewright.ledger.upkeep_things import Recovery
from racewright.remark import Remark
from racewright.upkeep.carrying import Carried
from racewright.upkeep.parts_availability import PartsAvailability
from racewright.upkeep.spares import Spares

WANTED = ("supply_year", "supply_band", "hour_machine", "money", "parts", "spares", "carrying", "recovery")
"""Nodes that make supply, upkeep and money."""


@dataclass(frozen=True)
class MachineLine:
    """The machines in the one year, up to the village.

    Attributes
    ----------
    water_year : int
        Year of the record that the water is from.
    recorded : float
        Part of it that was recorded [-].
    stops : int
        Drawn in the year, all machines.
    running : float
        Part of the year in which a machine was able to run, the season not counted [-].
    sent_energy, line_loss : float
        Of all machines, and what converter and cable take of it [J].
    """

    water_year: int
    recorded: float
    stops: int
    running: float
    sent_energy: float
    line_loss: float


@dataclass(frozen=True)
class SupplyFindings:
    """The hourly year of the village.

    Attributes
    ----------
    year : SupplyYear
        In every way of supply.
    machines : MachineLine
    band : SupplyBand
        Drawn years of the fullest way.
    money : SupplyMoney or None
        None where the community has no money table, or the machine no cost.
    """

    year: SupplyYear
    machines: MachineLine
    band: SupplyBand
    money: SupplyMoney | None


@dataclass(frozen=True)
class UpkeepFindings:
    """What keeps the machine running, and how it is carried and drawn out; None where the scheme has no such table.

    Attributes
    ----------
    parts : PartsAvailability or None
        Availability from parts.
    spares : Spares or None
        Spares chosen by the cost of lost energy.
    carrying : Carried or None
        Pieces against the means of transport.
    recovery : Recovery or None
        Pull against the current.
    """

    parts: PartsAvailability | None
    spares: Spares | None
    carrying: Carried | None
    recovery: Recovery | None


def supply_of(values: Mapping[str, Any]) -> SupplyFindings | None:
    """The hourly year; None where it does not apply."""
    if values["supply_year"] is None:
        return None
    machine = values["hour_machine"]
    line = MachineLine(
        machine.water_year, machine.recorded, machine.stops, machine.running, machine.sent_energy, machine.line_loss
    )
    return SupplyFindings(values["supply_year"], line, values["supply_band"], values["money"])


def upkeep_of(values: Mapping[str, Any]) -> UpkeepFindings | None:
    """Upkeep; None where nothing of it is given."""
    found = UpkeepFindings(values["parts"], values["spares"], values["carrying"], values["recovery"])
    return None if found == UpkeepFindings(None, None, None, None) else found


def supply_remarks(values: Mapping[str, Any]) -> tuple[Remark, ...]:
    """Remarks of all of them, each once."""
    names = ("supply_year", "money", "parts", "carrying", "recovery")
    return tuple(dict.fromkeys(r for name in names for r in getattr(values[name], "remarks", ())))
