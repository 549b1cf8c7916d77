"""From a campaign's findings to its drawings."""

from __future__ import annotations

import math
from collections.abc import Sequence
from contextlib import suppress

import numpy as np

from racewright.dossier.figures import (
    trial_budget,
    trial_fouling,
    trial_readings,
    trial_residuals,
    trial_rig,
    trial_ripple,
)
from racewright.dossier.figures.save import svg
from racewright.dossier.figures.trial_budget import Bar
from racewright.dossier.figures.trial_fouling import Trace
from racewright.dossier.figures.trial_readings import Cloud, Predicted
from racewright.dossier.trials_view import (
    Shown,
    blockage_groups,
    channel_shapes,
    coverage,
    every_reading,
    group_of,
    half_width,
    nearest,
)
from racewright.errors import InputError
from racewright.ledger.findings import Findings
from racewright.ledger.trials_findings import RunFouling, TrialsFindings
from racewright.trials.exponent import torque_exponent
from racewright.trials.result import NAMES, Reading

MOST_DRAWN = 4
"""Channels, and runs searched for fouling, that get a drawing each; tables and words hold all. Own choice."""
_SAME_RATIO = 0.01
"""Predicted points nearer than this to each other in tip-speed ratio, relative, are drawn as one. Own choice."""
_SMALL = 0.02
"""Sources below this share of the largest are drawn as one bar. Own choice."""
_MOST_BARS = 9


def draw_trials(findings: Findings, width: float) -> dict[str, bytes]:
    """Every drawing of the chapter that the findings allow, as SVG by name."""
    trials, machine = findings.trials, findings.machine
    if trials is None or machine is None:
        return {}
    drawn, invented = {}, trials.invented
    for k, shape in enumerate(channel_shapes(trials)[:MOST_DRAWN], start=1):
        figure = trial_rig.draw(shape, machine, trials.surface, width, invented=invented)
        drawn[f"trial_rig_{k}"] = svg(figure)
    shown, design = every_reading(trials), machine.unit.design.tip_speed_ratio
    at = nearest(shown, design)
    if at is not None:
        told = predicted(trials)
        drawn["trial_readings"] = svg(trial_readings.draw(clouds(shown), told, width, invented=invented))
        bars, together = budget(at.reading)
        if bars:
            drawn["trial_budget"] = svg(trial_budget.draw(bars, together, width, invented=invented))
        if has_ripple(at.reading):
            rows, one = (at.rig.blades, at.rig.vanes), at.reading
            drawn["trial_ripple"] = svg(trial_ripple.draw(one.ripple, one.torque, rows, width, invented=invented))
    if trials.check.regions:
        check = trials.check
        figure = trial_residuals.draw(
            check.rows, check.regions, design, width, coverage=coverage(trials.confidence), invented=invented
        )
        drawn["trial_residuals"] = svg(figure)
    for k, (run, trace) in enumerate(traces(trials)[:MOST_DRAWN], start=1):
        if run.found is not None:
            drawn[f"trial_fouling_{k}"] = svg(trial_fouling.draw(trace, run.found, width, invented=invented))
    return drawn


def has_ripple(reading: Reading) -> bool:
    """Whether there is an order spectrum to draw."""
    return reading.ripple.order.size > 0 and reading.torque != 0.0


def clouds(shown: Sequence[Shown]) -> tuple[Cloud, ...]:
    """Readings by kind and blockage: fouled first, then in the channel, then in the open stream."""
    groups = blockage_groups(shown)
    found = [_measured("fouled", [s for s in shown if s.fouled], 0, 0.0)]
    for k, blockage in groups.items():
        found.append(
            _measured("channel", [s for s in shown if not s.fouled and group_of(s, groups) == k], k, blockage)
        )
    for k, blockage in groups.items():
        found.append(_corrected([s for s in shown if not s.fouled and group_of(s, groups) == k], k, blockage))
    return tuple(c for c in found if c.ratio.size)


def _measured(kind: str, own: Sequence[Shown], marker: int, blockage: float) -> Cloud:
    power, thrust = ([getattr(s.reading, f"{n}_coefficient") for s in own] for n in ("power", "thrust"))
    return Cloud(
        kind,
        marker,
        blockage,
        np.array([s.reading.tip_speed_ratio.value for s in own]),
        np.array([m.value for m in power]),
        np.array([half_width(m, s.confidence) for m, s in zip(power, own, strict=True)]),
        np.array([m.value for m in thrust]),
        np.array([half_width(m, s.confidence) for m, s in zip(thrust, own, strict=True)]),
    )


def _corrected(own: Sequence[Shown], marker: int, blockage: float) -> Cloud:
    rows = []
    for s in own:
        c = s.corrected
        if c is not None and None not in (c.tip_speed_ratio, c.power_coefficient, c.thrust_coefficient):
            k = coverage(s.confidence)
            halves = (k * (c.power_uncertainty or 0.0), k * (c.thrust_uncertainty or 0.0))
            rows.append((c.tip_speed_ratio, c.power_coefficient, halves[0], c.thrust_coefficient, halves[1]))
    table = np.array(rows, np.float64).reshape(-1, 5)
    return Cloud("open", marker, blockage, *table.T)


def predicted(trials: TrialsFindings) -> Predicted | None:
    """The predicted points by tip-speed ratio, neighbours that are nearly one averaged; None without any."""
    rows = sorted(
        (r.tip_speed_ratio, r.predicted_power, r.predicted_low, r.predicted_high, r.predicted_thrust)
        for r in trials.check.rows
        if None not in (r.predicted_power, r.predicted_low, r.predicted_high, r.predicted_thrust)
    )
    if not rows:
        return None
    table = np.array(rows, np.float64)
    apart = np.flatnonzero(np.diff(table[:, 0]) > _SAME_RATIO * table[:-1, 0]) + 1
    return Predicted(*np.array([part.mean(axis=0) for part in np.split(table, apart)]).T)


def budget(reading: Reading) -> tuple[tuple[Bar, ...], tuple[float, float]]:
    """Sources as bars, the random first, then by size; the small ones, and those past the most, as one."""
    power, thrust = NAMES.index("power_coefficient"), NAMES.index("thrust_coefficient")
    random: list[Bar] = []
    others: list[Bar] = []
    for one in reading.sources:
        sizes = abs(float(one.effect[power])), abs(float(one.effect[thrust]))
        if one.kind == "random":
            random.append((f"{one.name} (random)", *sizes))
        else:
            others.append((one.name, *sizes))
    rows = [*random, *sorted(others, key=lambda r: -max(r[1:]))]
    most = max((max(r[1:]) for r in rows), default=0.0)
    if most == 0.0:
        return (), (0.0, 0.0)
    kept = [r for r in rows if max(r[1:]) >= _SMALL * most][:_MOST_BARS]
    rest = [r for r in rows if r not in kept]
    if len(rest) > 1:
        rest = [(f"{len(rest)} smaller ones", *_together(rest))]
    return (*kept, *rest), _together(rows)


def _together(rows: Sequence[Bar]) -> tuple[float, float]:
    """Root of the sum of squares: the sources are independent."""
    return math.sqrt(math.fsum(r[1] ** 2 for r in rows)), math.sqrt(math.fsum(r[2] ** 2 for r in rows))


def traces(trials: TrialsFindings) -> list[tuple[RunFouling, Trace]]:
    """Runs that were searched for fouling, with what is left of the torque when the flow is explained."""
    found = []
    for run in trials.foulings:
        trace = _trace(trials, run, run.cleaned)
        if run.found is not None and trace is not None:
            found.append((run, trace))
    return found


def _trace(trials: TrialsFindings, run: RunFouling, cleaned: float | None) -> Trace | None:
    """Torque over U^n Omega^(2-n), its first tenth as 1; n from the readings at other loads, else 2."""
    reduced = next((r.reduction for r in trials.campaign.runs if r.run == run.run), None)
    if reduced is None:
        return None
    own = [one for one in reduced.readings if one.start >= run.start and one.end <= run.end]
    series = reduced.series.between(run.start, run.end)
    if not own:
        return None
    series = series.between(own[0].start, own[-1].end)
    turning = (series.rotor_speed > 0.0) & (series.torque > 0.0) & (series.stream_speed > 0.0)
    if int(turning.sum()) < 2:
        return None
    everything = [one for r in trials.campaign.runs for one in r.reduction.readings]
    power = 2.0
    with suppress(InputError):  # readings at one load alone: the torque coefficient itself is drawn
        ratio = [one.tip_speed_ratio.value for one in everything]
        torque = [one.torque_coefficient.value for one in everything]
        at = float(np.mean([one.tip_speed_ratio.value for one in own]))
        power = float(np.mean(torque_exponent(ratio, torque, at)))
    flow = series.stream_speed**power * series.rotor_speed ** (2.0 - power)
    left = (series.torque / flow)[turning]
    first = left[: max(1, left.size // 10)]
    return Trace(series.time[turning], left / float(first.mean()), cleaned)
