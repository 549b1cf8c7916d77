"""Scheme tables of what drifts: logs that strike, trees and rafts that stay, and which logs pass in a year."""

from __future__ import annotations

from racewright.scheme.types import Table, choice, quantity, ratio, text

ATTITUDES = ("floating", "upright", "submerged")
"""How a log drifts; an upright one is a dead-head."""


class StrikeTable(Table):
    """One log on its way to the machine."""

    length: float = quantity("length", "0.3 m", "60 m", "of the log")
    diameter: float = quantity("length", "0.02 m", "4 m", "of the log")
    density: float = quantity("density", "300 kg/m3", "1400 kg/m3", "of the log, soaked as it is")
    attitude: str = choice(ATTITUDES, "how it drifts", default="floating", because="most logs")
    heading: float = quantity(
        "angle", "-180 deg", "180 deg", "of its axis from the stream", default="0 deg", because="end-on is the worst"
    )
    offset: float = quantity(
        "length",
        "-100 m",
        "100 m",
        "of its middle to the left of the machine's axis",
        default="0 m",
        because="dead on",
    )
    speed: float | None = quantity(
        "speed", "0.05 m/s", "20 m/s", "of the water and the log; the fastest water of the place if left out",
        default=None,
    )  # fmt: skip
    friction: float = ratio(0.0, 1.0, "wet wood on the machine", default=0.4, because="common practice, no source")
    restitution: float = ratio(
        0.05, 1.0, "share of the normal speed that comes back", default=0.3, because="own choice, no source"
    )
    source: str = text("where the figures come from")


class DebrisTable(Table):
    """Something that stays on the lines or the machine."""

    kind: str = choice(("trunk", "crown", "raft"), "what is held")
    length: float | None = quantity(
        "length", "0.3 m", "60 m", "trunk: of it; raft: of its longest piece", default=None
    )
    diameter: float | None = quantity("length", "0.02 m", "4 m", "trunk: of it", default=None)
    width: float | None = quantity("length", "0.1 m", "60 m", "crown: across the stream", default=None)
    height: float | None = quantity("length", "0.1 m", "60 m", "crown: in the water", default=None)
    wood: float | None = quantity(
        "volume", "0 m3", "1000000 m3", "raft: solid wood that comes by a day", default=None
    )
    caught: float = ratio(0.0, 1.0, "raft: share of it that stays", default=0.3, because="own choice, no source")
    time: float = quantity("time", "1 min", "1 yr", "raft: until it is cleared", default="7 d", because="own choice")
    ahead: float = quantity(
        "length", "-100 m", "100 m", "where it is held, ahead of the duct's leading edge", default="0 m",
        because="on the duct's lip",
    )  # fmt: skip
    up: float = quantity(
        "length",
        "-100 m",
        "100 m",
        "where it is held, above the machine's axis",
        default="0 m",
        because="on the axis",
    )
    source: str = text("where the figures come from")


class LogTable(Table):
    """Logs of one kind that pass in a year, by their distributions."""

    attitude: str = choice(ATTITUDES, "how they drift", default="floating", because="most logs")
    yearly: float = ratio(0.0, 1e7, "pieces that pass in a year, over passing_width")
    passing_width: float = quantity("length", "0.5 m", "10 km", "width of water that they were counted over")
    length: float = quantity("length", "0.3 m", "60 m", "median")
    length_spread: float = ratio(
        0.0, 2.0, "standard deviation of its natural logarithm", default=0.4, because="from memory"
    )
    diameter: float = quantity("length", "0.02 m", "4 m", "median")
    diameter_spread: float = ratio(
        0.0, 2.0, "standard deviation of its natural logarithm", default=0.4, because="from memory"
    )
    longest: float = quantity("length", "0.3 m", "60 m", "what fits the channel; longer ones are taken as this long")
    lightest: float = quantity("density", "300 kg/m3", "1400 kg/m3", "least density")
    heaviest: float = quantity("density", "300 kg/m3", "1400 kg/m3", "greatest density")
    heading_spread: float = quantity(
        "angle", "0 deg", "110 deg", "standard deviation of the axis from the stream", default="30 deg",
        because="own choice; pieces ride along the flow (Braudrick & Grant 2001)",
    )  # fmt: skip
    source: str = text("counts, who counted, when")


class LogSeasonTable(Table):
    """A part of the year by how fast the water is: from so much of the time exceeded to so much."""

    exceeded_from: float = ratio(0.0, 1.0, "share of the time in which its fastest water is exceeded")
    exceeded_to: float = ratio(0.0, 1.0, "share of the time in which its slowest water is exceeded")
    logs: float = ratio(0.0, 1.0, "share of the year's logs that pass in it")
    exposed: float = ratio(0.0, 1.0, "share of it that the machine is in the water", default=1.0, because="always")
