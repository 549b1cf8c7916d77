"""Help with the layout: buoyancy for wanted clearances, bridle width for a wanted roll."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike

from racewright.errors import NoAnswerError
from racewright.holding.checked import array
from racewright.holding.layout import Layout
from racewright.holding.load_state import LoadState
from racewright.holding.safety import POSE_CAUTION, computed
from racewright.holding.statics_result import Equilibrium
from racewright.holding.statics_sweep import Statics, at_rest, over_speeds, statics
from racewright.holding.stream import Stream
from racewright.holding.tether import Bridle, Tether
from racewright.machine.drive_checks import number
from racewright.safety import SafetyBasis
from racewright.tick import Tick, silent

_CLOSE = 1e-2
"""Relative width of the bracket at which a search for a size ends. Own choice [-]."""


@dataclass(frozen=True, slots=True)
class BuoyancyChoice:
    """The least buoyancy that keeps the machine off the bed.

    Attributes
    ----------
    buoyancy, net : float
        Of the whole body, and less its weight [N].
    bed_clearance, cover : float
        Least over the speeds and states [m].
    statics : Statics
        With that buoyancy.
    safety : SafetyBasis
    """

    buoyancy: float
    net: float
    bed_clearance: float
    cover: float
    statics: Statics
    safety: SafetyBasis


@dataclass(frozen=True, slots=True)
class BridleChoice:
    """The least spread of fairleads that keeps the roll small.

    Attributes
    ----------
    factor : float
        On the y of every fairlead [-].
    half_width : float
        Greatest |y| of the fairleads then [m].
    roll : float
        Greatest |roll| over the speeds and states [rad].
    layout : Layout
        With that spread.
    statics : Statics
    safety : SafetyBasis
    """

    factor: float
    half_width: float
    roll: float
    layout: Layout
    statics: Statics
    safety: SafetyBasis


def propose_buoyancy(
    layout: Layout,
    stream: Stream,
    states: tuple[LoadState, ...],
    stream_speeds: ArrayLike,
    *,
    bed_clearance: float,
    cover: float,
    most: float = 6.0,
    tick: Tick = silent,
) -> BuoyancyChoice:
    """The least buoyancy with the wanted clearance over the bed at every speed and state; cover is checked with it.

    The added buoyancy acts at the layout's centre of buoyancy.

    Parameters
    ----------
    layout, stream, states, stream_speeds
        As `statics`.
    bed_clearance, cover : float
        Wanted, >= 0 [m].
    most : float
        Greatest buoyancy that is tried, over the weight, 1 to 100, default 6 (own choice) [-].
    tick : Tick

    Raises
    ------
    NoAnswerError
        The clearance is not reached with the most buoyancy, or the cover is gone when it is reached: both cannot be
        had with these lines in this depth.
    """
    number("The wanted bed clearance", bed_clearance, 0.0, 1e3, "m")
    number("The wanted cover", cover, 0.0, 1e3, "m")
    number("The most buoyancy over weight", most, 1.0, 100.0)
    weight = layout.body.weight

    def with_buoyancy(buoyancy: float) -> Layout:
        return replace(layout, body=replace(layout.body, buoyancy=buoyancy))

    def clears(point: Equilibrium) -> bool:
        return point.settled and point.bed_clearance >= bed_clearance

    works = _in_all(with_buoyancy, stream, states, stream_speeds, clears)
    buoyancy = _least(works, 0.5 * weight, most * weight, tick)
    if buoyancy is None:
        raise NoAnswerError(
            f"Even a buoyancy of {most:g} times the weight does not keep {bed_clearance:g} m over the bed at every "
            "speed and state: raise or shorten the lines, or reduce the drag."
        )
    found = statics(with_buoyancy(buoyancy), stream, states, stream_speeds)
    above = float(found.cover.min())
    if above < cover:
        raise NoAnswerError(
            f"{bed_clearance:g} m over the bed takes a buoyancy of {buoyancy:.4g} N, and then the cover is down to "
            f"{above:.3g} m of the wanted {cover:g} m: both cannot be had with these lines in this depth."
        )
    return BuoyancyChoice(
        buoyancy,
        buoyancy - weight,
        float(found.bed_clearance.min()),
        above,
        found,
        computed(POSE_CAUTION),
    )


def propose_bridle_width(
    layout: Layout,
    stream: Stream,
    states: tuple[LoadState, ...],
    stream_speeds: ArrayLike,
    *,
    roll: float,
    widest: float = 10.0,
    tick: Tick = silent,
) -> BridleChoice:
    """The least spread of the fairleads, all y scaled alike, that keeps |roll| within a limit.

    Parameters
    ----------
    layout, stream, states, stream_speeds
        As `statics`; some fairlead must stand off the middle plane.
    roll : float
        Limit, > 0 [rad].
    widest : float
        Greatest factor on the fairleads' y that is tried, default 10 (own choice) [-].
    tick : Tick

    Raises
    ------
    NoAnswerError
        All fairleads stand in the middle plane, or even the widest spread rolls further.
    """
    number("The limit of roll", roll, 1e-4, 1.5, "rad")
    number("The widest spread", widest, 1.0, 1e3)
    half = max(abs(y) for tether in layout.tethers for y in _sides(tether))
    if half == 0.0:
        raise NoAnswerError("All fairleads stand in the middle plane: no width can be scaled. Set two of them apart.")

    def upright(point: Equilibrium) -> bool:
        return point.settled and abs(point.roll) <= roll

    works = _in_all(lambda factor: _spread(layout, factor), stream, states, stream_speeds, upright)
    factor = _least(works, 0.02, widest, tick)
    if factor is None:
        raise NoAnswerError(
            f"Even fairleads {widest * half:.3g} m to either side roll further than {np.degrees(roll):.3g} degrees: "
            "add weight below or buoyancy above, or balance the roll moment."
        )
    found = statics(_spread(layout, factor), stream, states, stream_speeds)
    return BridleChoice(
        factor,
        factor * half,
        float(np.abs(found.roll).max()),
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


def _in_all(
    sized: Callable[[float], Layout],
    stream: Stream,
    states: tuple[LoadState, ...],
    stream_speeds: ArrayLike,
    good: Callable[[Equilibrium], bool],
) -> Callable[[float], bool]:
    """Whether a size is good in every state and speed; the state that failed last is asked first."""
    speeds, order = array("The stream speeds", stream_speeds, (-1,)), list(states)

    def works(value: float) -> bool:
        layout = sized(value)
        first = at_rest(layout, stream)[1]
        for place, state in enumerate(order):
            if not all(good(point) for point in over_speeds(layout, stream, state, speeds, first)):
                order.insert(0, order.pop(place))
                return False
        return True

    return works


def _least(works: Callable[[float], bool], low: float, high: float, tick: Tick) -> float | None:
    """Least value between low and high that works, when all above it do; bisection on the logarithm."""
    if not works(high):
        return None
    if works(low):
        return low
    top, whole = high, np.log(high / low)
    while top / low > 1.0 + _CLOSE:
        middle = float(np.sqrt(top * low))
        if works(middle):
            top = middle
        else:
            low = middle
        tick(min(1.0, 1.0 - float(np.log(np.log(top / low) / _CLOSE) / np.log(whole / _CLOSE))))
    return top
