"""Is a stretch of a record steady enough to be one reading? If not, why."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from racewright.trials.cells import Cells, Places
from racewright.trials.channel import Channel
from racewright.trials.rig import Rig
from racewright.trials.series_error import FEWEST
from racewright.trials.series_kernel import (
    CELLS,
    CHANGE,
    ERROR,
    FIRST_HALF,
    MEAN,
    SECOND_HALF,
    SPREAD,
    steady_facts,
)
from racewright.trials.settings import Settings
from racewright.trials.window_kernel import flagged_shares

LEAST_TORQUE = 0.1
"""Torque coefficient below which drift and scatter of the torque are judged against this one. Own choice."""
_DENSITY = 1000.0


def refusals(
    cells: Cells, channels: Sequence[Channel], places: Places, rig: Rig, settings: Settings
) -> tuple[str, ...]:
    """Reasons why these cells are no steady reading; none when they are.

    The torque is judged before its zero is taken off, against its mean or against a torque coefficient of 0.1,
    whichever is larger: near runaway the mean is no measure.
    """
    reasons = [
        f"{channels[k].name}: {100 * share:.1f} % of readings flagged"
        for k, share in zip(places.all.tolist(), flagged_shares(cells.sums, places.all).tolist(), strict=True)
        if share > settings.flagged
    ]
    if reasons:
        return tuple(reasons)
    *speeds, rotor, torque = steady_facts(cells.sums, places.judged, 2 * FEWEST).tolist()
    stream = math.fsum(probe[MEAN] for probe in speeds) / len(speeds)
    if stream < settings.least_speed:
        return ("still water",)
    if abs(rotor[MEAN]) < settings.least_rotor:
        return ("rotor standing",)
    for probe in speeds:
        reasons += _unsteady("speed", probe, 0.0, settings.speed_drift, settings.speed_scatter, settings.halves)
    reasons += _unsteady("rotor speed", rotor, 0.0, settings.rotor_drift, settings.rotor_scatter, np.inf)
    least = LEAST_TORQUE * 0.5 * _DENSITY * rig.annulus_area * rig.tip_radius * stream**2
    reasons += _unsteady("torque", torque, least, settings.torque_drift, settings.torque_scatter, settings.halves)
    return tuple(dict.fromkeys(reasons))


def _unsteady(name: str, facts: list[float], least: float, drift: float, scatter: float, halves: float) -> list[str]:
    """Drift, scatter and change of scatter of one series of cell means, its facts as `steady_facts` has them."""
    if facts[CELLS] < 2 * FEWEST:
        return [f"{name}: too few cells with a reading"]
    mean = max(abs(facts[MEAN]), least)
    if mean == 0.0:
        return [f"{name}: no signal"]
    change, spread = facts[CHANGE], facts[SPREAD]
    reasons = []
    if abs(change) > drift * mean + 2.0 * facts[ERROR]:
        reasons.append(f"{name}: drifts {100 * change / mean:+.1f} %")
    if spread > scatter * mean:
        reasons.append(f"{name}: scatters {100 * spread / mean:.1f} %")
    small, large = sorted((facts[FIRST_HALF], facts[SECOND_HALF]))
    if large > halves * small and large > (1e-3 * mean) ** 2:
        reasons.append(f"{name}: scatter of the halves differs {large / max(small, 1e-300):.1f}-fold")
    return reasons
