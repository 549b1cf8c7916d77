"""What stands around the yearly energy of a case, gathered from the graph's values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from racewright.remark import Remark
from racewright.supply.availability import Availability
from racewright.supply.months import MonthlyEnergy
from racewright.supply.result import YearlyEnergy
from racewright.supply.river_share import RiverShare
from racewright.supply.speed_band import EnergyBand
from racewright.supply.turbulence import Turbulence
from racewright.supply.years import YearlySpread

WANTED = ("site", "energy", "availability", "energy_band", "years", "months", "turbulence", "river_share")
"""Nodes that make the energy and its parts, after the site; each has remarks but for the availability."""

WORST_FIRST = {"warning": 0, "caution": 1, "note": 2}
"""Order of remarks."""


@dataclass(frozen=True)
class EnergyParts:
    """What stands around the yearly energy of one machine.

    Attributes
    ----------
    availability : Availability
        By cause.
    band : EnergyBand
        Of the yearly energy, all causes of doubt together and one by one.
    months : MonthlyEnergy or None
        Energy by month; None where the place has no dates.
    years : YearlySpread or None
        Energy of each recorded year, and its spread; None where the place has no dates.
    turbulence : Turbulence
        What turbulence would do to the energy; not counted.
    river : RiverShare or None
        All machines beside their river; None where the discharge is not known.
    """

    availability: Availability
    band: EnergyBand
    months: MonthlyEnergy | None
    years: YearlySpread | None
    turbulence: Turbulence
    river: RiverShare | None


def energy_of(values: Mapping[str, Any]) -> YearlyEnergy | None:
    """The yearly energy with the band of all its causes; None where it does not apply."""
    energy: YearlyEnergy | None = values["energy"]
    return None if energy is None else replace(energy, total=values["energy_band"].total)


def remarks_of(values: Mapping[str, Any]) -> tuple[Remark, ...]:
    """All remarks on the site's water and the energy, each once, worst first."""
    found = [r for name in WANTED for r in getattr(values[name], "remarks", ())]
    return tuple(sorted(dict.fromkeys(found), key=lambda r: WORST_FIRST[r.severity]))


def parts_of(values: Mapping[str, Any]) -> EnergyParts | None:
    """The parts; None where the energy does not apply."""
    if values["energy"] is None:
        return None
    return EnergyParts(
        values["availability"],
        values["energy_band"],
        values["months"],
        values["years"],
        values["turbulence"],
        values["river_share"],
    )
