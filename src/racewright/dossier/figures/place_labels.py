"""Where labels go so that none covers another: in rows, down a side, or around their points."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from matplotlib.textpath import TextPath

SIZE = 7.5
"""Type size of labels [pt]."""
LINE = 0.15
"""Height of a line of that type with its gap [in]."""
_GAP = 0.08
_TURNS = (0.0, 30.0, -30.0, 60.0, -60.0, 90.0, -90.0, 120.0, -120.0, 150.0, -150.0, 180.0)


@dataclass(frozen=True)
class Placed:
    """Middle of a label and half its box [units of the axes]."""

    x: float
    y: float
    half_width: float
    half_height: float

    def meets(self, other: Placed) -> bool:
        """The boxes share room."""
        wide = self.half_width + other.half_width - abs(self.x - other.x)
        tall = self.half_height + other.half_height - abs(self.y - other.y)
        return wide > 0.0 and tall > 0.0


def text_width(text: str) -> float:
    """Width of a label [in]."""
    return float(TextPath((0.0, 0.0), text, size=SIZE).get_extents().width) / 72.0 + _GAP


def in_rows(
    at: Sequence[float], texts: Sequence[str], per_unit: float, ends: tuple[float, float]
) -> list[tuple[float, int]]:
    """Middle and row of labels that hang below their places, first row nearest; order as given.

    Parameters
    ----------
    at : sequence of float
        Places along the axis.
    texts : sequence of str
    per_unit : float
        Inches a unit of the axis.
    ends : tuple of float
        Ends of the axis; labels stay within.
    """
    used: list[float] = []
    found: dict[int, tuple[float, int]] = {}
    for i in sorted(range(len(texts)), key=lambda k: at[k]):
        half = 0.5 * text_width(texts[i]) / per_unit
        middle = min(max(at[i], ends[0] + half), max(ends[1] - half, ends[0] + half))
        row = next((r for r, right in enumerate(used) if middle - half >= right), len(used))
        if row == len(used):
            used.append(-math.inf)
        used[row] = middle + half
        found[i] = (middle, row)
    return [found[i] for i in range(len(texts))]


def spread(at: Sequence[float], gap: float, ends: tuple[float, float]) -> list[float]:
    """Places moved apart to at least `gap`, order kept, as near to where they were as a pass up and down gives."""
    order = sorted(range(len(at)), key=lambda k: at[k])
    moved = [at[k] for k in order]
    low = ends[0]
    for i, value in enumerate(moved):
        moved[i] = max(value, low)
        low = moved[i] + gap
    high = ends[1]
    for i in reversed(range(len(moved))):
        moved[i] = min(moved[i], high)
        high = moved[i] - gap
    return [moved[order.index(k)] for k in range(len(at))]


def around(
    points: Sequence[tuple[float, float]],
    texts: Sequence[str],
    per_unit: float,
    box: tuple[float, float, float, float],
    taken: Sequence[Placed] = (),
    lines: Sequence[Placed] = (),
) -> list[Placed]:
    """A place for each label near its point, outward from the middle of the box first.

    Parameters
    ----------
    points : sequence of tuple of float
    texts : sequence of str
    per_unit : float
        Inches a unit of both axes.
    box : tuple of float
        Left, right, low, high of the axes.
    taken : sequence of Placed
        Room that is not free.
    lines : sequence of Placed
        Room to leave free where that can be.
    """
    left, right, low, high = box
    found: list[Placed] = []
    for (x, y), text in zip(points, texts, strict=True):
        half = (0.5 * text_width(text) / per_unit, 0.5 * LINE / per_unit)
        out = math.atan2(y - 0.5 * (low + high), x - 0.5 * (left + right))
        tries = [
            _beside(x, y, out + math.radians(turn), far / per_unit, half)
            for far in (0.06, 0.2, 0.4, 0.7)
            for turn in _TURNS
        ]
        inside = [p for p in tries if _inside(p, box)]
        free = [p for p in inside if not any(p.meets(o) for o in (*taken, *found))]
        clear = [p for p in free if not any(p.meets(o) for o in lines)]
        found.append((clear or free or inside or tries)[0])
    return found


def _inside(at: Placed, box: tuple[float, float, float, float]) -> bool:
    left, right, low, high = box
    wide = left + at.half_width <= at.x <= right - at.half_width
    return wide and low + at.half_height <= at.y <= high - at.half_height


def _beside(x: float, y: float, angle: float, far: float, half: tuple[float, float]) -> Placed:
    c, s = math.cos(angle), math.sin(angle)
    return Placed(x + c * (far + half[0]), y + s * (far + half[1]), *half)
