"""Uncertain numbers: lopsided triangles, normals, even ranges, drawn together where they err together."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr, ndtri

from racewright.errors import InputError
from racewright.supply.streams import stream
from racewright.uncertainty.correlation import Correlation, blocks, correlation_matrix, factor

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Chance:
    """An uncertain number.

    Attributes
    ----------
    name : str
        As the model calls it.
    low, value, high : float
        Triangle: least, likeliest, greatest. Even: least, middle, greatest. Normal: `value` is the mean and `high` -
        `value` = `value` - `low` two standard deviations. Ratio: `value` is the median, and `low` and `high` lie two
        standard deviations of the logarithm off it [unit of the quantity].
    shape : {'triangle', 'even', 'normal', 'ratio'}
    """

    name: str
    low: float
    value: float
    high: float
    shape: Literal["triangle", "even", "normal", "ratio"] = "triangle"

    def __post_init__(self) -> None:
        ends = (self.low, self.value, self.high)
        if not all(math.isfinite(e) for e in ends) or not self.low <= self.value <= self.high:
            raise InputError(f"{self.name} is {ends!r}; wanted finite low <= value <= high")
        if self.shape not in ("triangle", "even", "normal", "ratio"):
            raise InputError(f"{self.name} has the shape {self.shape!r}; wanted triangle, even, normal or ratio")
        width = self.high - self.low
        if self.shape in ("even", "normal") and abs(self.high + self.low - 2.0 * self.value) > 1e-9 * width:
            raise InputError(f"{self.name} leans: {ends!r}; the shape {self.shape} wants its value in the middle")
        if self.shape == "ratio" and (self.low <= 0.0 or abs(self.low * self.high / self.value**2 - 1.0) > 1e-9):
            raise InputError(f"{self.name} is {ends!r}; a ratio wants numbers above 0 with low x high = value^2")

    def at(self, normal: Floats) -> Floats:
        """The number at standard normal scores, growing with them, shape as given."""
        if self.shape == "normal":
            return self.value + 0.5 * (self.high - self.value) * normal
        if self.shape == "ratio":
            return self.value * np.exp(0.5 * math.log(self.high / self.value) * normal)
        share = ndtr(normal)
        width = self.high - self.low
        if self.shape == "even" or width == 0.0:
            return self.low + width * share
        turn = (self.value - self.low) / width
        rising = self.low + np.sqrt(share * width * (self.value - self.low))
        falling = self.high - np.sqrt((1.0 - share) * width * (self.high - self.value))
        found: Floats = np.where(share < turn, rising, falling)
        return found

    def quantile(self, share: float) -> float:
        """The number that a share of 0 to 1, both excluded, stays below."""
        return float(self.at(np.array([ndtri(share)]))[0])


def normal(name: str, mean: float, deviation: float) -> Chance:
    """A normal number of this mean and standard deviation >= 0 [unit of the quantity]."""
    return Chance(name, mean - 2.0 * deviation, mean, mean + 2.0 * deviation, "normal")


def sure(name: str, value: float) -> Chance:
    """A number without doubt."""
    return Chance(name, value, value, value)


def draw(
    chances: Sequence[Chance],
    count: int,
    seed: int,
    *,
    case: str = "",
    correlations: Sequence[Correlation] = (),
) -> dict[str, Floats]:
    """Draws of each number, by name, shape (count,) each.

    Every name has a stream of its own within the case. Numbers that err together are joined through their normal
    scores: the coefficient is that of the scores, near the rank correlation; each keeps its own shape.

    Parameters
    ----------
    chances : sequence of Chance
    count : int
        1 to 10 000 000 [-].
    seed : int
        0 or more.
    case : str
        Other cases draw other numbers; the same case draws the same whatever other cases there are.
    correlations : sequence of Correlation

    Raises
    ------
    InputError
        A name given twice, a correlation of unknown names or that contradicts others, a count out of range.
    """
    names = [one.name for one in chances]
    if len(set(names)) != len(names):
        raise InputError(f"an uncertain number is named twice in {', '.join(names)}")
    if isinstance(count, bool) or not isinstance(count, int) or not 1 <= count <= 10_000_000:
        raise InputError(f"{count!r} draws; wanted 1 to 10000000")
    scores = [stream(seed, "chance", case, name).standard_normal(count) for name in names]
    matrix = correlation_matrix(names, correlations)
    for group in blocks(matrix):
        if len(group) > 1:
            mixed = factor(matrix[np.ix_(group, group)]) @ np.array([scores[i] for i in group])
            for row, i in enumerate(group):
                scores[i] = mixed[row]
    return {one.name: one.at(score) for one, score in zip(chances, scores, strict=True)}
