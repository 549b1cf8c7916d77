"""The whole scheme: places, machines, communities, and the cases that join them."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel, Field

from racewright.scheme.community_tables import CommunityTable
from racewright.scheme.growth_tables import GrowthTable
from racewright.scheme.holding_tables import HoldingTable
from racewright.scheme.machine_tables import MachineTable
from racewright.scheme.migrate import FORMAT
from racewright.scheme.neighbours_tables import NeighboursTable
from racewright.scheme.place_tables import PlaceTable
from racewright.scheme.trials_tables import TrialsTable
from racewright.scheme.types import Table, name, quantity, text, whole


class CaseTable(Table):
    """One machine at one place for one community; leave out what is not known yet."""

    place: str | None = name("name of a [place.*] table", default=None)
    machine: str | None = name("name of a [machine.*] table", default=None)
    community: str | None = name("name of a [community.*] table", default=None)
    trials: str | None = name("name of a [trials.*] table: tests of the case's machine", default=None)
    holding: str | None = name("name of a [holding.*] table: how the case's machine is held", default=None)
    neighbours: str | None = name("name of a [neighbours.*] table: fish, debris, sound", default=None)
    growth: str | None = name("name of a [growth.*] table: sizes to come", default=None)
    count: int = whole(1, 1000, "number of equal machines", default=1, because="one machine")
    spacing: float | None = quantity(
        "length", "0.1 m", "10 km", "least distance between machines one behind the other", default=None
    )
    across: float | None = quantity(
        "length",
        "-100 km",
        "100 km",
        "where the machine hangs, as distance across the transect",
        default=None,
    )
    hub_depth: float | None = quantity(
        "length",
        "0.05 m",
        "300 m",
        "axis below the surface, for a machine that follows the level",
        default=None,
    )
    hub_height: float | None = quantity(
        "length",
        "0.05 m",
        "300 m",
        "axis above the bed, for a machine that stays at its height",
        default=None,
    )


class Scheme(Table):
    """The input file of one project."""

    format: int = whole(1, FORMAT, "format version of this file")
    title: str = text("title of the dossier")
    place: dict[str, PlaceTable] = Field(default_factory=dict, description="places by name")
    machine: dict[str, MachineTable] = Field(default_factory=dict, description="machines by name")
    community: dict[str, CommunityTable] = Field(default_factory=dict, description="communities by name")
    trials: dict[str, TrialsTable] = Field(default_factory=dict, description="channel trials by name")
    holding: dict[str, HoldingTable] = Field(default_factory=dict, description="ways of holding a machine by name")
    neighbours: dict[str, NeighboursTable] = Field(default_factory=dict, description="fish, debris and sound by name")
    growth: dict[str, GrowthTable] = Field(default_factory=dict, description="ways of growth by name")
    case: dict[str, CaseTable] = Field(default_factory=dict, description="cases by name")

    def files(self) -> list[str]:
        """Every data file that the scheme names."""
        return _files(self)


def _files(value: Any) -> list[str]:
    if isinstance(value, dict):
        return [file for item in value.values() for file in _files(item)]
    if not isinstance(value, BaseModel):
        return []
    file = getattr(value, "file", None)
    return ([file] if isinstance(file, str) else []) + [
        f for key in type(value).model_fields for f in _files(getattr(value, key))
    ]
