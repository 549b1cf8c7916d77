"""Test against prediction: the as-built machine solved at each corrected reading's stream and rotor speed."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from racewright.flow.result import Axisymmetric
from racewright.ledger.trials_findings import CampaignReduced, Compared, Corrected, PredictionCheck, Region
from racewright.machine.row import Row
from racewright.machine.unit import Unit
from racewright.remark import Remark
from racewright.stage.bands import PowerBands, relative_ends
from racewright.stage.operating_point import points_of
from racewright.stage.result import OperatingPoint
from racewright.stage.solve import solve_many
from racewright.stage.stage_ready import ready_stage
from racewright.tick import Tick, silent
from racewright.trials.budget import coverage_factor
from racewright.trials.load_points import same_loads
from racewright.trials.result import Reading

REGIONS = ("below", "near", "above")
"""Regions of tip-speed ratio about the design's."""
NEAR = 0.15
"""Half-width of the middle region over the design tip-speed ratio. Own choice."""
THRUST_OFF = 0.15
"""Share of the predicted thrust from which a deviation is asked about. Own choice."""


def prediction_check(
    unit: Unit,
    rows: tuple[Row, Row],
    flow: Axisymmetric,
    bands: PowerBands,
    campaign: CampaignReduced,
    corrected: Sequence[Corrected],
    *,
    fouled: frozenset[tuple[str, int]],
    confidence: float,
    on_rotor: bool,
    tick: Tick = silent,
) -> PredictionCheck:
    """Residuals of each reading that has a correction, and by region.

    Parameters
    ----------
    unit, rows, flow
        The machine, rows as built.
    bands : PowerBands
        Of its design point; their relative ends stand for every load.
    campaign : CampaignReduced
    corrected : sequence of Corrected
        Of every reading, in order.
    fouled : frozenset of (str, int)
        Run and number of readings that are not compared, being of the fouled machine.
    confidence : float
        Of the measured intervals [-].
    on_rotor : bool
        Whether the balance carries the rotor alone, else the whole machine.
    tick : Tick
    """
    readings = {(r.run, i + 1): one for r in campaign.runs for i, one in enumerate(r.reduction.readings)}
    clean = [c for c in corrected if (c.run, c.number) not in fouled]
    usable = [c for c in clean if c.power_coefficient is not None]
    coverage = float(coverage_factor(math.inf, confidence))
    found: list[Compared] = []
    runs = sorted({one.run for one in usable})
    for k, run in enumerate(runs):
        tick(k / len(runs))
        own = [one for one in usable if one.run == run]
        found += _rows(
            unit, rows, flow, bands, [readings[one.run, one.number] for one in own], own, on_rotor, coverage
        )
    regions = _regions(found)
    lost = sum(row.predicted_power is None for row in found)
    left = _left_out(len(readings), len(corrected) - len(clean), len(clean) - len(usable), lost)
    return PredictionCheck(tuple(found), regions, (*_off(found, regions, coverage), *left, *_said(found)))


def _left_out(count: int, fouled: int, uncorrected: int, unpredicted: int) -> tuple[Remark, ...]:
    """What is not compared, by cause."""
    causes = [
        (fouled, "of the fouled machine"),
        (uncorrected, "without a correction"),
        (unpredicted, "without a predicted point"),
    ]
    told = ", ".join(f"{n} {why}" for n, why in causes if n)
    if not told:
        return ()
    left = fouled + uncorrected + unpredicted
    return (Remark("note", f"{left} of {count} readings are not compared: {told}.", "comparison"),)


def _rows(
    unit: Unit,
    rows: tuple[Row, Row],
    flow: Axisymmetric,
    bands: PowerBands,
    readings: Sequence[Reading],
    corrected: Sequence[Corrected],
    on_rotor: bool,
    coverage: float,
) -> list[Compared]:
    """The readings of one run, the water of its middle reading for all."""
    stage = ready_stage(unit, *rows, flow, readings[len(readings) // 2].water)
    speed = np.array([one.stream_speed * (c.stream_ratio or 1.0) for one, c in zip(readings, corrected, strict=True)])
    turning = np.array([one.rotor_speed for one in readings])
    solved = solve_many(stage, speed, turning)
    points = iter(points_of(stage, solved))
    answers = [next(points) if there else None for there in solved.answered]
    ratio = turning * float(rows[1].radius[-1]) / speed
    ends = relative_ends(bands)
    design = unit.design.tip_speed_ratio
    return [
        _row(float(u), float(r), design, point, one, ends, reading.rotor_speed, on_rotor, coverage)
        for u, r, point, one, reading in zip(speed, ratio, answers, corrected, readings, strict=True)
    ]


def _row(
    speed: float,
    ratio: float,
    design: float,
    point: OperatingPoint | None,
    one: Corrected,
    relative: tuple[float, float],
    rotor_speed: float,
    on_rotor: bool,
    coverage: float,
) -> Compared:
    region = "below" if ratio < (1.0 - NEAR) * design else "above" if ratio > (1.0 + NEAR) * design else "near"
    measured, doubt = one.power_coefficient or 0.0, one.power_uncertainty or 0.0
    power = None if point is None else point.power_coefficient
    thrust = None if point is None else _thrust(point, on_rotor)
    ends = None if power is None else sorted((power * relative[0], power * relative[1]))
    inside = None
    if ends is not None:
        inside = measured + coverage * doubt >= ends[0] and measured - coverage * doubt <= ends[1]
    return Compared(
        run=one.run,
        number=one.number,
        region=region,
        stream_speed=speed,
        rotor_speed=rotor_speed,
        tip_speed_ratio=ratio,
        measured_power=measured,
        measured_thrust=one.thrust_coefficient or 0.0,
        power_uncertainty=doubt,
        thrust_uncertainty=one.thrust_uncertainty or 0.0,
        predicted_power=power,
        predicted_low=None if ends is None else ends[0],
        predicted_high=None if ends is None else ends[1],
        predicted_thrust=thrust,
        power_residual=_residual(measured, power),
        thrust_residual=_residual(one.thrust_coefficient or 0.0, thrust),
        inside=inside,
        chord_reynolds=None if point is None else float(np.mean(point.blade_reynolds)),
        reason="" if point is not None else "the machine has no operating point at this stream and rotor speed",
    )


def _thrust(point: OperatingPoint, on_rotor: bool) -> float:
    """CT of what the balance carries [-]."""
    return point.thrust_coefficient * (point.forces.rotor / point.thrust if on_rotor else 1.0)


def _residual(measured: float, predicted: float | None) -> float | None:
    return None if predicted is None or predicted == 0.0 else measured / predicted - 1.0


def _regions(rows: Sequence[Compared]) -> tuple[Region, ...]:
    found = []
    for name in REGIONS:
        own = [r for r in rows if r.region == name and r.power_residual is not None]
        loads = [load for run in sorted({r.run for r in own}) for load in _loads([r for r in own if r.run == run])]
        if loads:
            power = np.array([np.mean([r.power_residual or 0.0 for r in load]) for load in loads])
            thrust = np.array([np.mean([r.thrust_residual or 0.0 for r in load]) for load in loads])
            spread = float(power.std(ddof=1)) if power.size > 1 else 0.0
            inside = sum(all(r.inside for r in load) for load in loads)
            means = float(power.mean()), float(thrust.mean())
            found.append(Region(name, len(loads), inside, len(own), *means, spread))
    return tuple(found)


def _loads(rows: Sequence[Compared]) -> list[list[Compared]]:
    """Rows of one run by load."""
    return [[rows[k] for k in load] for load in same_loads([r.tip_speed_ratio for r in rows])]


def _off(rows: Sequence[Compared], regions: Sequence[Region], coverage: float) -> tuple[Remark, ...]:
    """What is systematically off, by the test's own uncertainty; the prediction's band is wide and forgives much."""
    found = []
    for region in regions:
        own = [r for r in rows if r.region == region.region and r.predicted_power]
        doubt = max(r.power_uncertainty / abs(r.predicted_power or 1.0) for r in own)
        where = f"{region.region.capitalize()} the design tip-speed ratio"
        if abs(region.power_residual) > coverage * doubt:
            side = "below" if region.power_residual < 0.0 else "above"
            told = (
                f"{where} CP lies {100 * abs(region.power_residual):.1f} % {side} the prediction on average, beyond"
                f" the test's own uncertainty ({100 * coverage * doubt:.1f} %): one of the two is systematically off."
                " Quote the test, not the middle of the band."
            )
            found.append(Remark("caution", told, "comparison"))
        if abs(region.thrust_residual) > THRUST_OFF:
            told = (
                f"{where} CT lies {100 * region.thrust_residual:+.0f} % off the prediction: does the balance carry"
                " what thrust_on says, and is the frame's drag taken off?"
            )
            found.append(Remark("warning", told, "thrust"))
    return tuple(found)


def band_words(rows: Sequence[Compared]) -> str:
    """How many intervals reach the predicted band and how many values lie within it; empty without any compared."""
    known = [r for r in rows if r.inside is not None]
    reach, within = (sum(found is True for found in some) for some in
                     ((r.inside for r in known), (r.value_within for r in known)))  # fmt: skip
    if not known:
        return ""
    return (
        f"the interval reaches the predicted band in {reach} of {len(known)} compared readings, the value itself lies"
        f" within it in {within}"
    )


def _said(rows: Sequence[Compared]) -> tuple[Remark, ...]:
    told = band_words(rows).capitalize()
    if not told:
        return ()
    if any(r.inside is False for r in rows):
        why = "neither test nor prediction may be quoted alone before the rest is understood."
        return (Remark("warning", f"{told}: {why}", "comparison"),)
    return (Remark("note", f"{told}; the band is wide until a test calibrates it.", "comparison"),)
