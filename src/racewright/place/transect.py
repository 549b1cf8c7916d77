"""The transect: bed level across the river, and what a water level makes of it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from racewright.errors import InputError
from racewright.place.guard import finite_array
from racewright.place.result import Floats


@dataclass(frozen=True)
class Transect:
    """Bed level by distance across, straight between surveyed points.

    Dry parts are cut off exactly where the water line meets the bed, and every channel below the level
    counts. Above the surveyed banks the two ends are continued as vertical walls; `bank_level` tells from
    which level on.

    Attributes
    ----------
    distance : ndarray, shape (n,), n >= 3
        Across the river from any origin, strictly growing [m].
    bed_level : ndarray, shape (n,)
        Above the datum of the rating [m].

    Raises
    ------
    InputError
        Fewer than three points, NaN or infinity, unequal lengths, distances that do not grow.
    """

    distance: Floats
    bed_level: Floats

    def __post_init__(self) -> None:
        distance = finite_array("the transect's distance", self.distance)
        bed = finite_array("the transect's bed level", self.bed_level)
        if distance.size != bed.size:
            raise InputError(f"the transect has {distance.size} distances but {bed.size} bed levels")
        if distance.size < 3:
            raise InputError(f"the transect has {distance.size} points; at least 3 are needed")
        back = np.flatnonzero(np.diff(distance) <= 0.0)
        if back.size:
            i = int(back[0])
            raise InputError(
                f"the transect's distances must grow, but point {i + 2} at {distance[i + 1]:g} m follows "
                f"{distance[i]:g} m; sort them, and set the foot and top of a wall 0.01 m apart"
            )
        object.__setattr__(self, "distance", distance)
        object.__setattr__(self, "bed_level", bed)

    @property
    def bank_level(self) -> float:
        """Level of the lower of the two surveyed ends [m]; water above it stands against assumed walls."""
        return float(min(self.bed_level[0], self.bed_level[-1]))

    def wetted_area(self, level: ArrayLike) -> Floats:
        """Area of water in the transect [m2], for levels [m] of any shape."""
        return self.depth_power_integral(level, 1.0)

    def top_width(self, level: ArrayLike) -> Floats:
        """Width of the water's surface, islands left out [m], for levels [m] of any shape."""
        return self.depth_power_integral(level, 0.0)

    def depth_power_integral(self, level: ArrayLike, power: float) -> Floats:
        """Integral of depth^power over the wet width, exact on each straight piece [m^(power+1)].

        Parameters
        ----------
        level : array_like
            Water level [m], any shape.
        power : float
            0 gives the width, 1 the area, 5/3 the conveyance of verticals of equal slope and roughness [-].
        """
        height = np.asarray(level, dtype=np.float64)
        if not np.isfinite(height).all():
            raise InputError("a level is not finite; levels are numbers in m above the transect's datum")
        total = np.zeros_like(height)
        above = height - self.bed_level[0]
        for bed, width in zip(self.bed_level[1:], np.diff(self.distance), strict=True):
            following = height - bed
            total += width * _piece(above, following, power)
            above = following
        return total

    def bed_at(self, distance: float) -> float:
        """Bed level at a distance within the survey [m].

        Raises
        ------
        InputError
            When the distance lies outside the surveyed width.
        """
        low, high = float(self.distance[0]), float(self.distance[-1])
        if not low <= distance <= high:
            raise InputError(
                f"{distance:g} m lies outside the transect, which spans {low:g} m to {high:g} m", key="across"
            )
        return float(np.interp(distance, self.distance, self.bed_level))

    def depth_at(self, distance: float, level: ArrayLike) -> Floats:
        """Depth at a distance across [m], zero where dry, for levels [m] of any shape."""
        depth: Floats = np.maximum(np.asarray(level, dtype=np.float64) - self.bed_at(distance), 0.0)
        return depth

    def touching_level(self, distance: float, radius: float) -> float:
        """Level of the axis at which a circle of `radius` centred at `distance` just touches the bed [m].

        The highest of bed level + sqrt(radius^2 - offset^2) under the circle; on a straight piece of slope m
        it stands at the offset radius m / sqrt(1 + m^2) from the centre.

        Raises
        ------
        InputError
            When the circle reaches beyond the surveyed width.
        """
        left, right = distance - radius, distance + radius
        inner = self.distance[(self.distance > left) & (self.distance < right)]
        edges = np.concatenate(([left], inner, [right]))
        bed = np.array([self.bed_at(float(x)) for x in edges])
        slope = np.diff(bed) / np.diff(edges)
        tangent = distance + radius * slope / np.sqrt(1.0 + slope**2)
        x = np.clip(tangent, edges[:-1], edges[1:])
        under = bed[:-1] + slope * (x - edges[:-1])
        return float(np.max(under + np.sqrt(np.maximum(radius**2 - (x - distance) ** 2, 0.0))))


def _piece(a: Floats, b: Floats, power: float) -> Floats:
    """Mean of depth^power over a piece whose ends lie a and b under water; the dry part counts as nothing."""
    da, db = np.maximum(a, 0.0), np.maximum(b, 0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        wet = np.where(a == b, np.where(a > 0.0, 1.0, 0.0), (da - db) / (a - b))
        middle = 0.5 * (da + db)
        if power == 0.0:
            mean = np.ones_like(middle)
        elif power == 1.0:
            mean = middle
        else:
            ratio = np.where(middle > 0.0, (da - db) / middle, 0.0)
            series = middle**power * (1.0 + power * (power - 1.0) / 24.0 * ratio**2)
            closed = (da ** (power + 1.0) - db ** (power + 1.0)) / ((power + 1.0) * (da - db))
            mean = np.where(np.abs(ratio) < 1e-3, series, closed)
    result: Floats = np.where(wet > 0.0, wet * mean, 0.0)
    return result
