"""What of a campaign is shown: readings in order, the one nearest the design, channels and blockages alike."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from racewright.ledger.nodes_trials import fouled_readings
from racewright.ledger.trials_findings import Corrected, RunReduced, TrialsFindings
from racewright.ledger.trials_records import OTHER_WALL
from racewright.trials.result import Measured, Reading
from racewright.trials.rig import Rig
from racewright.uncertainty import coverage_factor

SAME_DEPTH = 0.02
"""Relative difference of depth within which two runs share a drawing of the channel. Own choice."""


@dataclass(frozen=True)
class Shown:
    """One reading with all that is known of it.

    Attributes
    ----------
    run : str
    number : int
        In its run, from 1 [-].
    rig : Rig
    reading : Reading
    corrected : Corrected or None
    fouled : bool
        Whether it is of a fouled stretch, so that it is no reading of the clean machine.
    confidence : float
        Of its intervals, as the campaign states it [-].
    """

    run: str
    number: int
    rig: Rig
    reading: Reading
    corrected: Corrected | None
    fouled: bool
    confidence: float


@dataclass(frozen=True)
class ChannelShape:
    """A channel in which one or more runs were made.

    Attributes
    ----------
    width, depth, axis_height : float
        Water width and depth, axis above the floor [m].
    duct_radius : float
        Of the circle that the duct blocks [m].
    rig : Rig
        Of the first of its runs.
    runs : tuple of str
    froude : tuple of float or None
        Least and largest of its readings; None without readings [-].
    speed : float or None
        Mean stream speed of its readings [m/s].
    """

    width: float
    depth: float
    axis_height: float
    duct_radius: float
    rig: Rig
    runs: tuple[str, ...]
    froude: tuple[float, float] | None
    speed: float | None

    @property
    def blockage(self) -> float:
        """The duct's circle over the channel's area [-]."""
        return math.pi * self.duct_radius**2 / (self.width * self.depth)


def every_reading(trials: TrialsFindings) -> tuple[Shown, ...]:
    """All readings, by run and time."""
    corrected = {(c.run, c.number): c for c in trials.corrected}
    fouled = fouled_readings(trials.foulings, trials.campaign)
    return tuple(
        Shown(r.run, k, r.rig, one, corrected.get((r.run, k)), (r.run, k) in fouled, trials.confidence)
        for r in trials.campaign.runs
        for k, one in enumerate(r.reduction.readings, start=1)
    )


def nearest(shown: Sequence[Shown], design: float) -> Shown | None:
    """The reading of the clean machine nearest a tip-speed ratio; a fouled one only where there is no other."""
    clean = [s for s in shown if not s.fouled] or list(shown)
    return min(clean, key=lambda s: abs(s.reading.tip_speed_ratio.value - design), default=None)


def half_width(measured: Measured, confidence: float) -> float:
    """Half of the interval at a confidence [-]."""
    return measured.standard_uncertainty * coverage_factor(confidence, max(measured.degrees_of_freedom, 1.0))


def coverage(confidence: float) -> float:
    """Half of an interval over a standard uncertainty with endless degrees of freedom [-]."""
    return coverage_factor(confidence, math.inf)


def blockage_groups(shown: Sequence[Shown]) -> dict[int, float]:
    """Blockages that differ by over 10 %, as index and mean blockage by the duct's circle, least first."""
    found: list[list[float]] = []
    for value in sorted(s.reading.numbers.blockage for s in shown):
        if not found or value > (1.0 + OTHER_WALL) * found[-1][0]:
            found.append([])
        found[-1].append(value)
    return {k: sum(values) / len(values) for k, values in enumerate(found)}


def group_of(shown: Shown, groups: dict[int, float]) -> int:
    """Index of the blockage that a reading belongs to."""
    own = shown.reading.numbers.blockage
    return min(groups, key=lambda k: abs(groups[k] - own))


def channel_shapes(trials: TrialsFindings) -> tuple[ChannelShape, ...]:
    """One for each width, depth of water and height of the axis, in order of the runs."""
    found: list[ChannelShape] = []
    for run in trials.campaign.runs:
        own = _shape(run)
        for k, known in enumerate(found):
            if (known.width, known.axis_height) == (own.width, own.axis_height) and abs(
                own.depth / known.depth - 1.0
            ) <= SAME_DEPTH:
                found[k] = _joined(known, own)
                break
        else:
            found.append(own)
    return tuple(found)


def _shape(run: RunReduced) -> ChannelShape:
    rig, readings = run.rig, run.reduction.readings
    depth, froude, speed = rig.depth, None, None
    if readings:
        numbers = [one.numbers.froude_number for one in readings if one.numbers.froude_number is not None]
        froude = (min(numbers), max(numbers)) if numbers else None
        depth = sum(one.depth for one in readings) / len(readings)
        speed = sum(one.stream_speed for one in readings) / len(readings)
    return ChannelShape(rig.channel_width, depth, rig.axis_height, rig.blocked_radius, rig, (run.run,), froude, speed)


def _joined(known: ChannelShape, own: ChannelShape) -> ChannelShape:
    ends = [one.froude for one in (known, own) if one.froude is not None]
    froude = (min(e[0] for e in ends), max(e[1] for e in ends)) if ends else None
    speed = own.speed if known.speed is None else known.speed
    return replace(known, runs=known.runs + own.runs, froude=froude, speed=speed)
