"""Is a stretch of a record steady enough to be one reading? If not, why."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from racewright.trials.cell_sums import ALL, COUNT, FIRST
from racewright.trials.cells import Cells, only
from racewright.trials.channel import Channel
from racewright.trials.rig import Rig
from racewright.trials.series_error import FEWEST, series_error
from racewright.trials.settings import Settings

Floats = NDArray[np.float64]
LEAST_TORQUE = 0.1
"""Torque coefficient below which drift and scatter of the torque are judged against this one. Own choice."""
_DENSITY = 1000.0
_NEEDED = ("speed", "torque", "rotor_speed", "thrust")


def refusals(cells: Cells, channels: Sequence[Channel], rig: Rig, settings: Settings) -> tuple[str, ...]:
    """Reasons why these cells are no steady reading; none when they are.

    The torque is judged before its zero is taken off, against its mean or against a torque coefficient of 0.1,
    whichever is larger: near runaway the mean is no measure.
    """
    reasons = []
    for k, channel in enumerate(channels):
        if channel.role in _NEEDED:
            share = 1.0 - cells.sums[k, :, COUNT].sum() / max(cells.sums[k, :, ALL].sum(), 1.0)
            if share > settings.flagged:
                reasons.append(f"{channel.name}: {100 * share:.1f} % of readings flagged")
    if reasons:
        return tuple(reasons)
    speeds = [_series(cells, k) for k, c in enumerate(channels) if c.role == "speed"]
    rotor = _series(cells, only(channels, "rotor_speed"))
    torque = _series(cells, only(channels, "torque"))
    stream = float(np.mean([s.mean() for s in speeds]))
    if stream < settings.least_speed:
        return ("still water",)
    if abs(rotor.mean()) < settings.least_rotor:
        return ("rotor standing",)
    for probe in speeds:
        reasons += _unsteady("speed", probe, 0.0, settings.speed_drift, settings.speed_scatter, settings.halves)
    reasons += _unsteady("rotor speed", rotor, 0.0, settings.rotor_drift, settings.rotor_scatter, np.inf)
    least = LEAST_TORQUE * 0.5 * _DENSITY * rig.annulus_area * rig.tip_radius * stream**2
    reasons += _unsteady("torque", torque, least, settings.torque_drift, settings.torque_scatter, settings.halves)
    return tuple(dict.fromkeys(reasons))


def _series(cells: Cells, channel: int) -> Floats:
    """Cell means of a channel, cells without a good reading left out."""
    count = cells.sums[channel, :, COUNT]
    good = count > 0
    return np.asarray(cells.sums[channel, good, FIRST] / count[good])


def _unsteady(name: str, x: Floats, least: float, drift: float, scatter: float, halves: float) -> list[str]:
    """Drift, scatter and change of scatter of one series of cell means."""
    n = x.size
    if n < 2 * FEWEST:
        return [f"{name}: too few cells with a reading"]
    mean = max(abs(float(x.mean())), least)
    if mean == 0.0:
        return [f"{name}: no signal"]
    place = (np.arange(n) - 0.5 * (n - 1)) / n
    change = float(place @ x) / float(place @ place)
    rest = x - x.mean() - change * place
    error = np.sqrt(12.0) * series_error(rest).standard_error
    reasons = []
    if abs(change) > drift * mean + 2.0 * error:
        reasons.append(f"{name}: drifts {100 * change / mean:+.1f} %")
    spread = float(x.std(ddof=1))
    if spread > scatter * mean:
        reasons.append(f"{name}: scatters {100 * spread / mean:.1f} %")
    first, second = float(rest[: n // 2].var()), float(rest[n // 2 :].var())
    if max(first, second) > halves * min(first, second) and max(first, second) > (1e-3 * mean) ** 2:
        reasons.append(
            f"{name}: scatter of the halves differs {max(first, second) / max(min(first, second), 1e-300):.1f}-fold"
        )
    return reasons
