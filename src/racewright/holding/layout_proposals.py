"""Help with the layout: the least buoyancy and the least spread of fairleads that meet every wish at once."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from racewright.errors import NoAnswerError
from racewright.holding.layout import Layout
from racewright.holding.layout_wishes import Wished
from racewright.holding.safety import POSE_CAUTION, computed
from racewright.holding.statics_sweep import Statics
from racewright.holding.tether import Bridle, Tether
from racewright.machine.drive_checks import number
from racewright.safety import SafetyBasis
from racewright.tick import Tick, silent

_CLOSE = 2e-2
"""Relative width of the bracket at which a search for a size ends. Own choice [-]."""
_STRIDE = 1.3
"""Step of the walk that looks for the first size that does. Own choice [-]."""


@dataclass(frozen=True, slots=True)
class BuoyancyChoice:
    """The least buoyancy that meets the wishes.

    Attributes
    ----------
    buoyancy, net : float
        Of the whole body, and less its weight [N].
    bed_clearance, cover : float
        Least over the speeds and states of the first water [m].
    binds : str
        What a smaller one does not meet, '' where the least that is tried meets all.
    statics : Statics
        With that buoyancy, in the first water.
    safety : SafetyBasis
    """

    buoyancy: float
    net: float
    bed_clearance: float
    cover: float
    binds: str
    statics: Statics
    safety: SafetyBasis


@dataclass(frozen=True, slots=True)
class BridleChoice:
    """The least spread of fairleads that meets the wishes.

    Attributes
    ----------
    factor : float
        On the y of every fairlead [-].
    half_width : float
        Greatest |y| of the fairleads then [m].
    roll : float
        Greatest |roll| over the speeds and states of the first water [rad].
    binds : str
        What a smaller one does not meet, '' where the least that is tried meets all.
    layout : Layout
        With that spread.
    statics : Statics
    safety : SafetyBasis
    """

    factor: float
    half_width: float
    roll: float
    binds: str
    layout: Layout
    statics: Statics
    safety: SafetyBasis


def propose_buoyancy(wished: Wished, *, most: float = 6.0, tick: Tick = silent) -> BuoyancyChoice:
    """The least buoyancy that meets every wish in every water, speed and state, all else as it is.

    The added buoyancy acts at the layout's centre of buoyancy.

    Parameters
    ----------
    wished : Wished
    most : float
        Greatest buoyancy that is tried, over the weight, 1 to 100, default 6 (own choice) [-].
    tick : Tick

    Raises
    ------
    NoAnswerError
        No buoyancy meets all wishes at once; the sentence says what fails at the least and at the most.
    """
    number("The most buoyancy over weight", most, 1.0, 100.0)
    body = wished.layout.body
    weight = body.weight

    def with_buoyancy(buoyancy: float) -> Layout:
        return replace(wished.layout, body=replace(body, buoyancy=buoyancy))

    def unmet(buoyancy: float) -> str:
        return wished.unmet(with_buoyancy(buoyancy))

    buoyancy, binds = _least(unmet, body.buoyancy, (0.5 * weight, most * weight), "buoyancy", tick)
    found = wished.table(with_buoyancy(buoyancy))
    return BuoyancyChoice(
        buoyancy,
        buoyancy - weight,
        float(found.bed_clearance.min()),
        float(found.cover.min()),
        binds,
        found,
        computed(POSE_CAUTION),
    )


def propose_bridle_width(wished: Wished, *, widest: float = 10.0, tick: Tick = silent) -> BridleChoice:
    """The least spread of the fairleads, all y scaled alike, that meets every wish, all else as it is.

    Parameters
    ----------
    wished : Wished
        Some fairlead of its layout must stand off the middle plane.
    widest : float
        Greatest factor on the fairleads' y that is tried, default 10 (own choice) [-].
    tick : Tick

    Raises
    ------
    NoAnswerError
        All fairleads stand in the middle plane, or no spread meets all wishes at once; the sentence says what fails
        at the least and at the widest.
    """
    number("The widest spread", widest, 1.0, 1e3)
    layout = wished.layout
    half = max(abs(y) for tether in layout.tethers for y in _sides(tether))
    if half == 0.0:
        raise NoAnswerError("All fairleads stand in the middle plane: no width can be scaled. Set two of them apart.")

    def unmet(factor: float) -> str:
        return wished.unmet(_spread(layout, factor))

    factor, binds = _least(unmet, 1.0, (0.02, widest), "spread of fairleads", tick)
    found = wished.table(_spread(layout, factor))
    return BridleChoice(
        factor,
        factor * half,
        float(np.abs(found.roll).max()),
        binds,
        _spread(layout, factor),
        found,
        computed(POSE_CAUTION),
    )


def _sides(tether: Tether) -> tuple[float, ...]:
    lead = tether.fairlead
    return tuple(p[1] for p in lead.fairleads) if isinstance(lead, Bridle) else (lead[1],)


def _spread(layout: Layout, factor: float) -> Layout:
    tethers = []
    for tether in layout.tethers:
        lead = tether.fairlead
        if isinstance(lead, Bridle):
            points = tuple((x, factor * y, z) for x, y, z in lead.fairleads)
            tethers.append(replace(tether, fairlead=replace(lead, fairleads=points)))
        else:
            tethers.append(replace(tether, fairlead=(lead[0], factor * lead[1], lead[2])))
    return replace(layout, tethers=tuple(tethers))


def _least(
    unmet: Callable[[float], str], now: float, span: tuple[float, float], what: str, tick: Tick
) -> tuple[float, str]:
    """Least size in the span that meets all: a walk down from now where that does, else up; then halved.

    Going down, it is the least of the run of good sizes that holds the present one.
    """
    low, high = span
    if not unmet(now):
        bad, good, binds = _walk(unmet, now, low, until_good=False, tick=tick)
        if not binds:
            return low, ""
    else:
        first = binds = unmet(low)
        if not first:
            return low, ""
        good, bad, why = _walk(unmet, low, high, until_good=True, tick=tick)
        if why:
            raise NoAnswerError(
                f"No {what} meets every wish at once, all else left as it is: at the least that was tried {first}; "
                f"at the most {why}."
            )
    while good / bad > 1.0 + _CLOSE:
        middle = math.sqrt(good * bad)
        why = unmet(middle)
        if why:
            bad, binds = middle, why
        else:
            good = middle
    tick(1.0)
    return good, binds


def _walk(
    unmet: Callable[[float], str], start: float, end: float, *, until_good: bool, tick: Tick
) -> tuple[float, float, str]:
    """Where the walk ended, the size before it, and what the last one did not meet."""
    steps = max(1, math.ceil(abs(math.log(end / start)) / math.log(_STRIDE)))
    before, here, why = start, start, ""
    for step in range(1, steps + 1):
        before, here = here, start * (end / start) ** (step / steps)
        why = unmet(here)
        tick(0.8 * step / steps)
        if until_good is not bool(why):
            break
    return here, before, why
