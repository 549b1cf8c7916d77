"""One line lost, each in turn."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike

from racewright.holding.checked import array
from racewright.holding.layout import Layout
from racewright.holding.load_state import LoadState
from racewright.holding.statics import unsettled
from racewright.holding.statics_result import Reason
from racewright.holding.statics_sweep import Statics, statics, table_of
from racewright.holding.stream import Stream
from racewright.tick import Tick, part_of, silent


def one_line_lost(
    layout: Layout,
    stream: Stream,
    states: tuple[LoadState, ...],
    stream_speeds: ArrayLike,
    *,
    tick: Tick = silent,
) -> tuple[Statics, ...]:
    """`statics` of the layout without each tether in turn, power cables kept.

    The pose is that after the machine has come to rest again; the swing to it and the snatch at its end are not in
    it. A machine on its last tether is adrift: every point has that reason and no figures.

    Parameters
    ----------
    layout, stream, states, stream_speeds, tick
        As `statics`.
    """
    tethers = [t.name for t in layout.tethers if t.purpose == "tether"]
    speeds = array("The stream speeds", stream_speeds, (-1,))
    if len(tethers) == 1:
        return (_adrift(layout, stream, states, speeds, tethers[0]),)
    found = []
    for place, name in enumerate(tethers):
        part = part_of(tick, place, len(tethers))
        found.append(statics(layout, stream, states, speeds, lost=name, tick=part))
    return tuple(found)


def _adrift(layout: Layout, stream: Stream, states: tuple[LoadState, ...], speeds: np.ndarray, name: str) -> Statics:
    """The last tether is gone: nothing holds."""
    text = f"'{name}' is the last tether: without it the machine drifts, until something else stops it."
    why = Reason("adrift", name, 0.0, 1.0, "1", text)
    points = tuple(
        tuple(unsettled(layout, replace(stream, speed=float(u)), state.name, why) for u in speeds) for state in states
    )
    return table_of(name, tuple(s.name for s in states), (), speeds, points[0][0], points)
