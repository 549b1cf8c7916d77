"""Layouts that cannot hold, each built so that one stated reason is the first."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

import numpy as np

from racewright.holding import LoadState
from tests.holding.layouts import Built, Nothing, build, speed_at


@dataclass(frozen=True)
class Wrong:
    """A layout and the reason that it was built with."""

    built: Built
    code: str


def capsizes(rng: np.random.Generator) -> Built:
    """Lines that end on the roll axis, and too much roll moment for any righting; or top-heavy."""
    b = build(rng, (0.35, 0.65), on_axis=True)
    body = b.layout.body
    high, low = np.array(body.centre_of_buoyancy), np.array(body.centre_of_weight)
    if rng.random() < 0.5:
        up = float(np.hypot(*high[1:]) * body.buoyancy + np.hypot(*low[1:]) * body.weight)
        up += float(np.hypot(*body.drag_centre[1:])) * b.load
        speed = b.state.stream_speed
        along = speed_at(b.stream, float(b.position[2]))
        moment = rng.choice([-1.0, 1.0]) * rng.uniform(6.0, 15.0) * up / along**2
        state = LoadState("capsizing", speed, b.state.thrust, moment * speed**2, b.state.drag)
        return replace(b, state=state)
    heavy = rng.uniform(0.3, 0.6) * float(np.ptp(body.outline[:, 2]))
    top = replace(
        body,
        centre_of_weight=(low[0], 0.0, heavy),
        centre_of_buoyancy=(high[0], 0.0, -heavy),
        drag_centre=(body.drag_centre[0], 0.0, 0.0),
    )
    return replace(b, layout=replace(b.layout, body=top))


def sinks(rng: np.random.Generator) -> Built:
    """Balanced with part of the body below the bed, or simply far too heavy."""
    if rng.random() < 0.5:
        b = build(rng, (-0.15, -0.05))
        if (
            lowest(b) > -0.02 * b.layout.body.size
            or min(t.length for t in b.layout.tethers) < 6.0 * b.layout.body.size
        ):
            raise Nothing
        return b
    b = build(rng, (0.1, 0.4))
    if any(t.fixed.position[2] > 0.5 * b.position[2] for t in b.layout.tethers):
        raise Nothing
    pull = sum(4.0 * t.segments[0].strength for t in b.layout.tethers if t.fixed.on == "bank")
    weight = (b.layout.body.buoyancy + b.load + pull) * rng.uniform(1.2, 2.0)
    return replace(b, layout=replace(b.layout, body=replace(b.layout.body, weight=weight)))


def surfaced(rng: np.random.Generator) -> Built:
    """Balanced with part of the body out of the water."""
    b = build(rng, (1.05, 1.15))
    top = float(np.max(b.position[2] + b.layout.body.outline @ b.turn[2]))
    if top < b.stream.depth + 0.02 * b.layout.body.size:
        raise Nothing
    return b


def anchor_lifts(rng: np.random.Generator) -> Built:
    """Balanced, but one anchor that wants a flat pull is pulled up."""
    b = build(rng, (0.15, 0.85))
    bed = [i for i, t in enumerate(b.layout.tethers) if t.fixed.on == "bed" and t.fixed.position[2] < 1e-9]
    if not bed:
        raise Nothing
    i = int(rng.choice(bed))
    tethers = list(b.layout.tethers)
    tethers[i] = replace(tethers[i], fixed=replace(tethers[i].fixed, uplift_limit=0.0))
    return replace(b, layout=replace(b.layout, tethers=tuple(tethers)))


def too_short(rng: np.random.Generator) -> Built:
    """Two lines whose fixed points stand further apart than both can stretch with the body between them."""
    b = build(rng, (0.2, 0.8))
    tethers = list(b.layout.tethers)
    if len(tethers) < 2:
        raise Nothing
    spots = [np.array(t.fixed.position) for t in tethers]
    pairs = [(np.linalg.norm(p - q), i, j) for i, p in enumerate(spots) for j, q in enumerate(spots) if i < j]
    apart, i, j = max(pairs)
    between = float(np.linalg.norm(np.array(tethers[i].fairlead) - np.array(tethers[j].fairlead)))
    room = apart - between
    if room < 0.3 * apart:
        raise Nothing
    share = rng.uniform(0.3, 0.7)
    for k, part in ((i, share), (j, 1.0 - share)):
        segment = tethers[k].segments[0]
        breaks = 1.0 + segment.strength / segment.stiffness
        length = part * room / breaks * rng.uniform(0.5, 0.9)
        tethers[k] = replace(tethers[k], segments=(replace(segment, length=length),))
    return replace(b, layout=replace(b.layout, tethers=tuple(tethers)))


def lowest(b: Built) -> float:
    return float(np.min(b.position[2] + b.layout.body.outline @ b.turn[2]))


KINDS: dict[str, Callable[[np.random.Generator], Built]] = {
    "capsizes": capsizes,
    "sinks": sinks,
    "line too short": too_short,
    "surfaced": surfaced,
    "anchor lifts": anchor_lifts,
}


def wrong_layouts(count: int, seed: int) -> Iterator[Wrong]:
    """`count` layouts that cannot hold, the five reasons in turn."""
    rng = np.random.default_rng(seed)
    codes = list(KINDS)
    for place in range(count):
        code = codes[place % len(codes)]
        while True:
            try:
                yield Wrong(KINDS[code](rng), code)
            except Nothing:
                continue
            break
