"""A series of readings in one channel as loads: all windows at one tip-speed ratio are one point."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from racewright.trials.result import NAMES, Reading

SAME_LOAD = 0.02
"""Span of tip-speed ratio, relative, within which windows count as one load. Own choice."""
_POWER, _THRUST = NAMES.index("power_coefficient"), NAMES.index("thrust_coefficient")
Pair = tuple[float, float]


@dataclass(frozen=True)
class LoadPoint:
    """One load of a series; pairs are CP and CT.

    Attributes
    ----------
    members : tuple of int
        Places of its windows in the series.
    tip_speed_ratio : float
        Mean of the windows [-].
    value : tuple of float
        CP and CT, means of the windows [-].
    own : tuple of float
        Standard uncertainty that no other series shares: scatter, which falls with more windows, and zeros [-].
    shared : mapping of str to tuple of float
        Signed standard uncertainty by each source that other series share, like a calibration [-].
    """

    members: tuple[int, ...]
    tip_speed_ratio: float
    value: Pair
    own: Pair
    shared: Mapping[str, Pair]

    def uncertainty(self, k: int) -> float:
        """Combined standard uncertainty of CP (0) or CT (1) [-]."""
        return math.hypot(self.own[k], *(e[k] for e in self.shared.values()))


def same_loads(ratios: Sequence[float]) -> tuple[tuple[int, ...], ...]:
    """Places of tip-speed ratios that are one load, least ratio first."""
    found: list[list[int]] = []
    first = 0.0
    for place in sorted(range(len(ratios)), key=lambda k: ratios[k]):
        if not found or ratios[place] > (1.0 + SAME_LOAD) * first:
            found.append([])
            first = ratios[place]
        found[-1].append(place)
    return tuple(tuple(sorted(group)) for group in found)


def load_points(series: Sequence[Reading]) -> tuple[LoadPoint, ...]:
    """The loads of a series of readings, least tip-speed ratio first."""
    loads = same_loads([one.tip_speed_ratio.value for one in series])
    return tuple(_point(series, members) for members in loads)


def _point(series: Sequence[Reading], members: tuple[int, ...]) -> LoadPoint:
    windows = [series[k] for k in members]
    shared: dict[str, list[Pair]] = {}
    scatter, fixed = np.zeros(2), np.zeros(2)
    for one in windows:
        size = np.array([one.power_coefficient.value, one.thrust_coefficient.value])
        for source in one.sources:
            effect = source.effect[[_POWER, _THRUST]] * size
            if source.shared:
                shared.setdefault(source.name, []).append((float(effect[0]), float(effect[1])))
            elif source.kind == "random":
                scatter += effect**2
            else:
                fixed += effect**2
    n = len(windows)
    own = np.sqrt(scatter / n**2 + fixed / n)
    means = {name: (sum(e[0] for e in all_) / n, sum(e[1] for e in all_) / n) for name, all_ in shared.items()}
    return LoadPoint(
        members,
        float(np.mean([one.tip_speed_ratio.value for one in windows])),
        (
            float(np.mean([one.power_coefficient.value for one in windows])),
            float(np.mean([one.thrust_coefficient.value for one in windows])),
        ),
        (float(own[0]), float(own[1])),
        means,
    )


def shared_correlation(one: LoadPoint, other: LoadPoint, k: int) -> float:
    """Correlation of the errors of two points in CP (0) or CT (1), from the sources that both share [-]."""
    size = one.uncertainty(k) * other.uncertainty(k)
    if size == 0.0:
        return 0.0
    both = one.shared.keys() & other.shared.keys()
    return min(max(sum(one.shared[name][k] * other.shared[name][k] for name in both) / size, 0.0), 1.0)
