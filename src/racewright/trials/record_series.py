"""Series of the same model at several blockages, brought to common tip-speed ratios."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import BarycentricInterpolator, CubicSpline, PchipInterpolator

from racewright.trials.load_points import SAME_LOAD, LoadPoint

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Beside:
    """What one series does to another: its coefficients over the other's, by tip-speed ratio.

    Attributes
    ----------
    tip_speed_ratio : ndarray, shape (n,)
        Where both are known, rising [-].
    power, thrust : ndarray, shape (n,)
        CP and CT of this series over the other's [-].
    points : tuple of LoadPoint
        This series there, with its uncertainties, the doubt of the interpolation among them.
    """

    tip_speed_ratio: Floats
    power: Floats
    thrust: Floats
    points: tuple[LoadPoint, ...]


def partner(point: LoadPoint, own: Sequence[LoadPoint], other: Sequence[LoadPoint]) -> LoadPoint | None:
    """The other series at a point's tip-speed ratio; None outside of what both have.

    Where they have no load in common the denser series is interpolated to the loads of the other, and the ratio of
    the two, which hardly changes with the tip-speed ratio, linearly between them.

    Parameters
    ----------
    point : LoadPoint
        Of `own`.
    own, other : sequence of LoadPoint
        The loads of the two series, rising in tip-speed ratio.
    """
    found = beside(own, other)
    if found is None:
        return None
    at, x = point.tip_speed_ratio, found.tip_speed_ratio
    if not x[0] * (1.0 - SAME_LOAD) <= at <= x[-1] * (1.0 + SAME_LOAD):
        return None
    ratio = [float(np.interp(at, x, values)) for values in (found.power, found.thrust)]
    weight = [float(np.interp(at, x, row)) for row in np.eye(x.size)]
    value = (point.value[0] * ratio[0], point.value[1] * ratio[1])
    return replace(_mixed(found.points, weight, at, value), members=())


def beside(own: Sequence[LoadPoint], other: Sequence[LoadPoint]) -> Beside | None:
    """`other` over `own` where both are known; None where they share no tip-speed ratio."""
    at_other = [p for p in other if _within(p, own)]
    at_own = [p for p in own if _within(p, other)]
    pairs: list[tuple[LoadPoint, LoadPoint]]
    if at_other and (len(at_other) <= len(at_own) or not at_own):
        pairs = [(_at(own, p.tip_speed_ratio), p) for p in at_other]
    elif at_own:
        pairs = [(p, _at(other, p.tip_speed_ratio)) for p in at_own]
    else:
        return None
    return Beside(
        np.array([b.tip_speed_ratio for _a, b in pairs]),
        np.array([b.value[0] / a.value[0] if a.value[0] else 1.0 for a, b in pairs]),
        np.array([b.value[1] / a.value[1] if a.value[1] else 1.0 for a, b in pairs]),
        tuple(_doubted(b, a) for a, b in pairs),
    )


def _within(point: LoadPoint, series: Sequence[LoadPoint]) -> bool:
    """Whether a series reaches a point: between its loads, or at the very load of one."""
    x = [p.tip_speed_ratio for p in series]
    at = point.tip_speed_ratio
    if len(x) > 2 and x[0] * (1.0 - 0.5 * SAME_LOAD) <= at <= x[-1] * (1.0 + 0.5 * SAME_LOAD):
        return True
    return any(abs(at / one - 1.0) <= 0.5 * SAME_LOAD for one in x)


def _at(series: Sequence[LoadPoint], at: float) -> LoadPoint:
    """A series interpolated to a tip-speed ratio; what its curve between the loads may be else is its own doubt."""
    x = np.array([p.tip_speed_ratio for p in series])
    if x.size < 3:
        near = min(series, key=lambda p: abs(p.tip_speed_ratio - at))
        return replace(near, tip_speed_ratio=at)
    unit = np.eye(x.size)
    smooth = (CubicSpline(x, unit) if x.size > 3 else BarycentricInterpolator(x, unit))(at)
    values = np.array([p.value for p in series])
    found = smooth @ values
    stiff = np.array([PchipInterpolator(x, values[:, k])(at) for k in (0, 1)])
    mixed = _mixed(series, smooth.tolist(), at, (float(found[0]), float(found[1])))
    doubt = np.abs(found - stiff) / math.sqrt(3.0)
    return replace(mixed, own=(math.hypot(mixed.own[0], doubt[0]), math.hypot(mixed.own[1], doubt[1])))


def _mixed(series: Sequence[LoadPoint], weight: Sequence[float], at: float, value: tuple[float, float]) -> LoadPoint:
    """Uncertainties of a weighted sum of loads."""
    own = [math.sqrt(sum((w * p.own[k]) ** 2 for w, p in zip(weight, series, strict=True))) for k in (0, 1)]
    names = sorted({name for p in series for name in p.shared})
    shared = {
        name: (
            sum(w * p.shared.get(name, (0.0, 0.0))[0] for w, p in zip(weight, series, strict=True)),
            sum(w * p.shared.get(name, (0.0, 0.0))[1] for w, p in zip(weight, series, strict=True)),
        )
        for name in names
    }
    return LoadPoint((), at, value, (own[0], own[1]), shared)


def _doubted(point: LoadPoint, base: LoadPoint) -> LoadPoint:
    """A point whose ratio to an interpolated one is taken: that one's own doubt is its doubt too, relative."""
    if base.members:
        return point
    scale = [abs(point.value[k] / base.value[k]) if base.value[k] else 1.0 for k in (0, 1)]
    own = [math.hypot(point.own[k], scale[k] * base.own[k]) for k in (0, 1)]
    return replace(point, own=(own[0], own[1]))
