"""Segments to the arrays that the kernels take, and a first guess of the tension."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.holding.checked import Floats
from racewright.holding.line_catenary import end_forces
from racewright.holding.line_segment import Segment
from racewright.holding.stream import Stream

ELEMENTS = 48
"""Elements of a line in a current, all segments together. Own choice: a taut line's tension within 1e-5, that of a
hanging one within some 0.3 % [-]."""
_LEAST = 3
"""Elements of a segment at least [-]."""
FROM_CHORD = np.array([(times, 0.0) for times in (1e5, 1e4, 1e3, 1e2, 10.0, 1.0)])
"""A search from nowhere: slack limit over the last one, drag as on the chord throughout [-]."""
SHAPED = np.array([(1.0, share) for share in (0.1, 0.3, 0.6, 1.0)])
"""From there to drag on the line's own shape [-]."""
AT_ONCE = np.array([(1.0, 1.0)])


@dataclass(frozen=True, slots=True)
class Elements:
    """A line cut into elements from its upper end down.

    Attributes
    ----------
    rows : ndarray, shape (n, 6)
        As the columns of `line_march`.
    strength : ndarray, shape (n,)
        [N]
    segment : ndarray of int, shape (n,)
        Place of each element's segment, counted from the lower end.
    from_bed : bool
        The lower end stands on the bed, and the line may lie there.
    """

    rows: Floats
    strength: Floats
    segment: NDArray[np.int64]
    from_bed: bool

    @property
    def length(self) -> float:
        """Unstretched [m]."""
        return float(self.rows[:, 0].sum())

    @property
    def flexibility(self) -> float:
        """Stretch per tension when straight, sum of length/EA [m/N]."""
        return float(np.sum(self.rows[:, 0] / self.rows[:, 1]))


def elements_of(
    segments: tuple[Segment, ...],
    stream: Stream,
    *,
    drag_factor: float = 1.0,
    from_bed: bool = True,
    count: int = ELEMENTS,
) -> Elements:
    """Cut segments, listed from the lower end up, into about `count` elements, at least three each."""
    total = sum(s.length for s in segments)
    rows: list[tuple[float, ...]] = []
    strength: list[float] = []
    owner: list[int] = []
    for place, s in enumerate(segments):
        pieces = max(_LEAST, round(count * s.length / total))
        drag = 0.5 * stream.density * s.drag_coefficient * s.diameter * drag_factor
        water, air = s.submerged_weight(stream.density, stream.gravity), s.mass * stream.gravity
        rows += [(s.length / pieces, s.stiffness, water, air, drag)] * pieces
        strength += [s.strength] * pieces
        owner += [place] * pieces
    found = np.array(rows[::-1])
    sinks_on = np.cumprod(found[::-1, 2] > 0.0)[::-1] * from_bed
    return Elements(np.column_stack([found, sinks_on]), np.array(strength[::-1]), np.array(owner[::-1]), from_bed)


def flow_of(stream: Stream) -> Floats:
    """The flow as `line_march` takes it."""
    return np.array(
        [stream.speed, *stream.direction, stream.reference_height, stream.power, stream.depth], dtype=np.float64
    )


def first_tension(lower: Floats, upper: Floats, elements: Elements, stream: Stream) -> Floats:
    """Tension at the upper end of the catenary that the mean load per length would make [N]."""
    rows, total = elements.rows, elements.length
    chord = upper - lower
    way = max(float(np.linalg.norm(chord)), 1e-9)
    t = chord / way
    u = np.array([*stream.direction, 0.0]) * stream.speed_at(0.5 * float(lower[2] + upper[2]))
    normal = u - float(u @ t) * t
    load = float(rows[:, 0] @ rows[:, 4]) / total * np.linalg.norm(normal) * normal
    load[2] -= float(rows[:, 0] @ rows[:, 2]) / total
    pull = float(np.linalg.norm(load))
    down = load / pull if pull > 0.0 else np.array([0.0, 0.0, -1.0])
    on_bed = elements.from_bed and bool(down[2] < -0.9) and bool(chord[2] >= 0.0)
    rise = -float(chord @ down)
    across = chord + rise * down
    run = float(np.linalg.norm(across))
    stiff = total / elements.flexibility
    h, v, *_ = end_forces(run, rise, total, max(pull, 1e-9), stiff, on_bed)
    side = across / max(run, 1e-9 * total)
    h = max(h, 1e-3 * pull * total)
    return np.asarray(h * side - v * down)
