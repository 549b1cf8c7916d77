"""The dataclasses that a tide's node values are made of."""

from __future__ import annotations

from racewright.place.channel import ChannelPotential
from racewright.place.tide_result import Tide, TideConstituent, Unseparated
from racewright.place.tide_rhythm import Slack, SpringNeap
from racewright.place.tide_site import TidalSite
from racewright.place.tide_trace import TideTrace
from racewright.place.tide_ways import TideWay

TIDE_CLASSES: tuple[type, ...] = (
    ChannelPotential,
    Slack,
    SpringNeap,
    TidalSite,
    Tide,
    TideConstituent,
    TideTrace,
    TideWay,
    Unseparated,
)
