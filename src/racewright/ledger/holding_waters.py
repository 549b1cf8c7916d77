"""The waters that a holding is asked in, and the layout as it is drawn for one of them."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.errors import InputError
from racewright.holding.layout import Layout
from racewright.holding.stream import STANDARD_GRAVITY, Stream
from racewright.ledger.fastest import design_water
from racewright.ledger.holding_things import layout_of
from racewright.ledger.node import Given
from racewright.place.result import Site

DEPTH_KEYS = ("case.hub_depth", "case.hub_height", "place.depth")


def reference(given: Given, site: Site) -> tuple[str, float]:
    """Label and depth of the water that the layout is drawn for: at median discharge, or as the place says it [m]."""
    for standing in site.standings:
        if standing.label == "median":
            return standing.label, standing.depth
    depth = given.keys["place.depth"]
    if depth is None:
        raise InputError(
            "missing; a holding needs the depth at the machine: a record of discharge with rating and transect, or"
            " depth, like depth = '6 m'",
            key="depth",
        )
    return "depth given", float(depth)


@dataclass(frozen=True)
class Water:
    """One depth of water that a holding is asked in.

    Attributes
    ----------
    label : str
    depth : float
        [m]
    fastest : float
        Greatest stream speed that goes with it, the allowance on it [m/s].
    """

    label: str
    depth: float
    fastest: float


def waters(given: Given, site: Site) -> tuple[Water, ...]:
    """The waters that a holding is asked in; the first is the fastest of the place and sizes it.

    Where record, rating and transect tell depth and speed of one and the same water, each depth goes with its own
    speed; else the fastest water is taken in the one depth that is known.
    """
    allowance = given.keys["holding.speed_allowance"]
    label, depth = reference(given, site)
    most = design_water(site, allowance)
    if site.fastest is None:
        return (Water(label, depth, most),)
    first = Water(site.fastest.label, site.fastest.depth, most)
    rest = [s for s in site.standings if s.speed > 0.0 and hub_height(given, s.depth) > 0.0]
    return (first, *(Water(s.label, s.depth, min(most, allowance * s.speed)) for s in rest))


def hub_height(given: Given, depth: float) -> float:
    """Of the axis above the bed as it is meant to hang [m]."""
    keys = given.keys
    if keys["case.hub_height"] is not None:
        return float(keys["case.hub_height"])
    if keys["case.hub_depth"] is None:
        raise InputError("missing; say where the axis hangs, like hub_depth = '1.6 m'", key="hub_depth")
    return depth - float(keys["case.hub_depth"])


def stream_of(given: Given, depth: float, speed: float) -> Stream:
    """The stream in one depth, its speed meant at the axis's intended height."""
    height = hub_height(given, depth)
    if height <= 0.0:
        raise InputError(
            f"an axis {given.keys['case.hub_depth']:g} m down is under the bed of {depth:.3g} m of water",
            key="hub_depth",
        )
    profile = given.keys["place.profile_exponent"]
    return Stream(speed, depth, height, profile=profile, density=given.nodes["water"].density)


def drawn_layout(given: Given, site: Site) -> Layout:
    """The layout, its lines and anchors as they are drawn for the water of `reference`."""
    height = hub_height(given, reference(given, site)[1])
    return layout_of(given.keys, given.nodes["water"].density, STANDARD_GRAVITY, height)
