"""Ranges to the thresholds of hearing groups and of sound pressure."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from racewright.safety import SafetyBasis
from racewright.sound.bands import exposure_gain
from racewright.sound.hearing import AuditoryGroup, PressureThreshold, weighting
from racewright.sound.level_result import ThresholdRange
from racewright.sound.propagation import FARTHEST
from racewright.sound.reach import Way

Floats = NDArray[np.float64]


def group_ranges(
    group: AuditoryGroup, frequency: Floats, levels: Floats, way: Way, duration: float, uncertainty: float
) -> tuple[ThresholdRange, ThresholdRange]:
    """Weighted exposure of a still animal against temporary shift and injury; levels at 1 m, shape (n,) [dB]."""
    heard = levels + weighting(group, frequency) + exposure_gain(duration)
    hours = duration / 3600.0
    told = (("temporary shift of hearing", group.shift_threshold), ("injury of hearing", group.injury_threshold))
    first, second = (
        _range(
            f"{group.title}, {what}, exposure over {hours:.3g} h",
            group.edition,
            group.name,
            threshold,
            "dB re 1 uPa2 s, weighted",
            heard,
            way,
            uncertainty,
            group.safety,
        )
        for what, threshold in told
    )
    return first, second


def pressure_ranges(
    thresholds: Sequence[PressureThreshold], levels: Floats, way: Way, uncertainty: float
) -> tuple[ThresholdRange, ...]:
    """Unweighted levels against thresholds of sound pressure."""
    return tuple(
        _range(
            one.title if one.duration is None else f"{one.title}, for {one.duration / 3600.0:.0f} h",
            one.safety.edition,
            "",
            one.level,
            "dB re 1 uPa, rms",
            levels,
            way,
            uncertainty,
            one.safety,
        )
        for one in thresholds
    )


def _range(
    title: str,
    edition: str,
    group: str,
    threshold: float,
    reference: str,
    levels: Floats,
    way: Way,
    uncertainty: float,
    safety: SafetyBasis,
) -> ThresholdRange:
    low, value, high = (way.reach(levels + shift, threshold) for shift in (-uncertainty, 0.0, uncertainty))
    return ThresholdRange(
        title=title,
        edition=edition,
        group=group,
        threshold=threshold,
        reference=reference,
        level_at_one_metre=way.total(levels, 1.0),
        distance=value,
        distance_low=low,
        distance_high=high,
        words=f"{title}: {_said(value)} ({_said(low)} to {_said(high)} within the uncertainty).",
        safety=safety,
    )


def _said(distance: float) -> str:
    if distance <= 1.0:
        return "nowhere beyond 1 m"
    return f"beyond {FARTHEST / 1e3:.0f} km" if distance >= FARTHEST else f"{distance:.3g} m"
