"""One line lost, each in turn."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike

from racewright.holding.checked import array
from racewright.holding.layout import Layout
from racewright.holding.load_state import LoadState
from racewright.holding.statics_result import Reason
from racewright.holding.statics_sweep import Statics, statics
from racewright.holding.stream import Stream
from racewright.tick import Tick, silent


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
    found = []
    for place, name in enumerate(tethers):
        if len(tethers) == 1:
            found.append(_adrift(statics(layout, stream, states, stream_speeds, tick=tick), name))
            continue

        def part(share: float, place: int = place) -> None:
            tick((place + share) / len(tethers))

        found.append(statics(layout, stream, states, array("The speeds", stream_speeds, (-1,)), lost=name, tick=part))
    return tuple(found)


def _adrift(intact: Statics, name: str) -> Statics:
    """The last tether is gone: nothing holds."""
    text = f"'{name}' is the last tether: without it the machine drifts, until something else stops it."
    why = Reason("adrift", name, 0.0, 1.0, "1", text)
    points = tuple(
        tuple(replace(p, settled=False, feasible=False, reasons=(why,), lines=(), stability=None) for p in row)
        for row in intact.points
    )
    shape = intact.settled.shape
    nothing = np.full(shape, np.nan)
    none = np.zeros((*shape, 0))
    return replace(
        intact,
        lost=name,
        lines=(),
        settled=np.zeros(shape, dtype=np.bool_),
        feasible=np.zeros(shape, dtype=np.bool_),
        reason=tuple(("adrift",) * shape[1] for _ in range(shape[0])),
        height=nothing,
        knock_down=nothing,
        offset=nothing,
        roll=nothing,
        pitch=nothing,
        yaw=nothing,
        cover=nothing,
        bed_clearance=nothing,
        tension=none,
        utilisation=none,
        uplift=none,
        slack=none.astype(np.bool_),
        points=points,
    )
