"""Where the machine hangs in one load state, at once: what is drawn while anchors and fairleads are moved."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from racewright.desk import memory
from racewright.desk.answer import Answer, answer_with
from racewright.desk.keeper.keys import Value
from racewright.desk.keeper.text import changed
from racewright.desk.parts.holding_spots import HoldingPeak, HoldingRest, rest_of, spots_of
from racewright.desk.seam import Asked
from racewright.holding.layout import Layout
from racewright.holding.statics import equilibrium
from racewright.holding.statics_result import Equilibrium
from racewright.holding.stream import Stream
from racewright.ledger.graph import plan
from racewright.ledger.holding_findings import HeldLoad
from racewright.ledger.holding_waters import drawn_layout, stream_of, waters
from racewright.ledger.inputs import case_of
from racewright.ledger.nodes_holding import line_factors
from racewright.tick import Tick, silent

_LOADS: dict[str, tuple[HeldLoad, ...]] = {}
"""The load states that this process met last."""


def rest(asked: Asked) -> dict[str, Any]:
    """The layout, its rest in the state and stream that are asked for, and how near each state comes to a strength.

    `basis` says what the loads stand on: 'computed' on those of the draft, 'before' on those of an earlier draft,
    'place' where none is at hand (only the intended place is known then), 'none' without a holding. `worst` is the
    state that comes nearest to a line's strength, in the same stream as `rest`.
    """
    from racewright.cli.holding_answer import finite

    name, case = case_of(asked.loaded, asked.options.case)
    planned = plan(asked.loaded, name, case, ("held",))
    if "held" not in planned.given:
        return {"basis": "none", "rest": None, "worst": None, "fastest": None, "peaks": [], "spots": []}
    values = asked.values("site", "water")
    given = replace(planned.given["held"], nodes={"site": values["site"], "water": values["water"]})
    water = waters(given, values["site"])[0]
    fastest = water.fastest
    stream = stream_of(given, water.depth, min(asked.options.speed or fastest, fastest))
    layout = drawn_layout(given, values["site"])
    loads, basis = _loads(planned.keys["held_loads"])
    factor = max((f.factor for f in line_factors(given) if f.case in ("intact", "both")), default=1.0)
    most = []
    for done, load in enumerate(loads):
        most.append(_hung(layout, replace(stream, speed=fastest), load))
        asked.tick(0.9 * (done + 1) / len(loads))
    peaks = tuple(_peak(found, factor) for found in most)
    shown = next((load for load in loads if load.name == asked.options.state), loads[0] if loads else None)
    settled = None if shown is None else _hung(layout, stream, shown)
    found = {
        "basis": basis,
        "rest": rest_of(layout, stream, settled, factor),
        "worst": _worst(layout, stream, loads, peaks, factor),
        "fastest": Fastest(fastest),
        "peaks": peaks,
        "spots": spots_of(given.keys, layout.position[2], settled),
    }
    return {key: finite(value) for key, value in found.items()}


@dataclass(frozen=True)
class Fastest:
    """Fastest water of the place [m/s]."""

    stream_speed: float


UNITS = {"Fastest": {"stream_speed": "m/s"}}


def _worst(
    layout: Layout, stream: Stream, loads: tuple[HeldLoad, ...], peaks: tuple[HoldingPeak, ...], factor: float
) -> HoldingRest | None:
    """The state that peaks, in the stream that is shown; None where nothing settled."""
    known = [(peak.use, load) for peak, load in zip(peaks, loads, strict=True) if peak.use is not None]
    if not known:
        return None
    load = max(known, key=lambda pair: pair[0])[1]
    return rest_of(layout, stream, _hung(layout, stream, load), factor)


def _peak(found: Equilibrium, factor: float) -> HoldingPeak:
    if not found.settled:
        return HoldingPeak(found.state, "", None, None)
    line = max(found.lines, key=lambda one: one.utilisation)
    return HoldingPeak(found.state, line.name, line.tension, factor * line.utilisation)


def moved(text: str, changes: Mapping[str, Value], path: Path, options: Any, tick: Tick = silent) -> Answer:
    """The answer of `rest` for a scheme with some keys changed, all of it inside a worker.

    Parameters
    ----------
    text : str
        Of the scheme.
    changes : mapping
        As the keeper takes them.
    path : Path
        Where its file lies.
    options : Options
    tick : Tick
    """
    return answer_with(rest, changed(text, changes).encode(), path, options, tick)


def _loads(key: str) -> tuple[tuple[HeldLoad, ...], str]:
    """Load states of the draft where they are remembered, else those met last."""
    if key in _LOADS:
        return _LOADS[key], "computed"
    found, value = memory.store().get(key)
    if found:
        _LOADS.clear()
        _LOADS[key] = value
        return value, "computed"
    return next(((loads, "before") for loads in _LOADS.values()), ((), "place"))


def _hung(layout: Layout, stream: Stream, load: HeldLoad) -> Equilibrium:
    acted = replace(layout, body=replace(layout.body, drag_centre=(load.drag_x, 0.0, load.drag_up)))
    return equilibrium(acted, stream, load.state)
