"""Soundings of a transect: verticals with a depth and speeds at standard depths."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.errors import InputError
from racewright.place.guard import within

POINTS = {0: (), 1: (0.6,), 2: (0.2, 0.8), 3: (0.2, 0.6, 0.8)}
"""Places of one, two and three speeds, as parts of the depth below the surface [-]."""

_WEIGHTS = {1: (1.0,), 2: (0.5, 0.5), 3: (0.25, 0.5, 0.25)}


@dataclass(frozen=True)
class Vertical:
    """One vertical of a transect.

    Attributes
    ----------
    distance : float
        Across the river from any origin [m].
    depth : float
        Of water, 0 to 200; 0 at a sloping edge [m].
    speeds : tuple of float
        None where no speed was measured (edges only); one at 0.6 of the depth below the surface; two at 0.2
        and 0.8; three at 0.2, 0.6 and 0.8. Along the transect's normal, -2 to 10, negative upstream [m/s].
    """

    distance: float
    depth: float
    speeds: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        within("a vertical's distance", self.distance, -1e5, 1e5, "m")
        within("a vertical's depth", self.depth, 0.0, 200.0, "m")
        if len(self.speeds) not in POINTS:
            raise InputError(f"a vertical has {len(self.speeds)} speeds; one, two or three are known rules")
        for speed in self.speeds:
            within("a measured speed", speed, -2.0, 10.0, "m/s")

    @property
    def mean_speed(self) -> float:
        """Mean over the vertical: v0.6, (v0.2 + v0.8)/2, or (v0.2 + 2 v0.6 + v0.8)/4; 0 without speeds [m/s]."""
        if not self.speeds:
            return 0.0
        return math.fsum(w * v for w, v in zip(_WEIGHTS[len(self.speeds)], self.speeds, strict=True))


def in_order(verticals: tuple[Vertical, ...]) -> None:
    """Refuse soundings from which no discharge follows.

    Raises
    ------
    InputError
        Fewer than two edges and one vertical between, distances that do not grow, a wet vertical between the
        edges without a speed, or a transect without any water.
    """
    if len(verticals) < 3:
        raise InputError(f"{len(verticals)} verticals; at least two edges and one vertical between are needed")
    for i in range(1, len(verticals)):
        if verticals[i].distance <= verticals[i - 1].distance:
            raise InputError(
                f"vertical {i + 1} at {verticals[i].distance:g} m does not lie beyond vertical {i} at "
                f"{verticals[i - 1].distance:g} m; sort them from one bank to the other"
            )
    for i, vertical in enumerate(verticals[1:-1], start=2):
        if vertical.depth > 0.0 and not vertical.speeds:
            raise InputError(f"vertical {i} is {vertical.depth:g} m deep but has no speed; give one, two or three")
    if all(v.depth == 0.0 for v in verticals):
        raise InputError("no vertical holds water")
