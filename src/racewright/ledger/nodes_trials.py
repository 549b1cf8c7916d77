"""The trials' nodes: runs reduced, walls taken off, set against prediction, fouling looked for, debris counted."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any

import numpy as np

from racewright.errors import InputError
from racewright.ledger.convert import UNIT_KEYS, unit_of
from racewright.ledger.node import Given, Node
from racewright.ledger.trials_check import prediction_check
from racewright.ledger.trials_corrected import Corrections, InChannel, Walls, channel_reading, one_method
from racewright.ledger.trials_findings import CampaignReduced, Corrected, PredictionCheck, RunFouling, RunReduced
from racewright.ledger.trials_kept import of_store
from racewright.ledger.trials_limits import check_fits, check_times, of_run, rated
from racewright.ledger.trials_things import (
    cards_of,
    channels_of,
    pieces_of,
    rig_of,
    settings_of,
    source_of,
    steps_of,
    tares_of,
    tested,
)
from racewright.records.campaign.cut_rows import cut_rows
from racewright.records.campaign.even_rows import EvenRows
from racewright.records.campaign.logger import read_logger
from racewright.records.campaign.raw_file import raw_chunks
from racewright.remark import Remark
from racewright.stage.solve import solve_many
from racewright.stage.stage_ready import ready_stage
from racewright.tick import Tick
from racewright.trials.channel import Chunk
from racewright.trials.doses import DoseRow, dose_table
from racewright.trials.exponent import torque_exponent
from racewright.trials.fouling import fouling
from racewright.trials.reduce import reduce
from racewright.trials.result import Reading

WIDE_EXPONENTS = (1.0, 4.0)
"""Exponents of torque over stream speed where the readings do not narrow them, as `fouling` takes them [-]."""


def _campaign(given: Given, tick: Tick) -> CampaignReduced:
    """Every run from its logger's file, one after the other."""
    keys = given.keys
    channels, weights, remarks = channels_of(keys["trials.channels"], keys["trials.logger"], given.files)
    model = tested(given.nodes["rows"], given.nodes["flow"])
    found = []
    runs = sorted(keys["trials.runs"].items())
    for done, (name, run) in enumerate(runs):
        path = given.files[f"trials.runs.{name}.file"]
        check_fits(keys["trials.rig"], name, run, model.outer_radius)
        rig = rig_of(keys["trials.rig"], run, model)
        try:
            reduced = reduce(
                logged(path, keys["trials.channels"], keys["trials.logger"], run, [c.name for c in channels]),
                channels,
                rig,
                tares=tares_of(run),
                weights=weights,
                settings=settings_of(keys["trials.reduction"]),
                tick=lambda part, done=done: tick((done + part) / len(runs)),  # type: ignore[misc]
            )
        except InputError as fault:
            raise of_run(_in_file(fault, path), name) from None
        check_times(name, run, reduced.duration, settings_of(keys["trials.reduction"]).cell, path.name)
        found.append(RunReduced(name, rig, reduced))
        if of_store(path):
            kept = path.parent.parent.name
            told = f"Run {name}: its logger file is not there; the raw data that {kept} keeps are used."
            remarks = (*remarks, Remark("caution", told, "trials"))
    if keys["trials.rig"]["radius_error"] is None:
        told = "radius_error of the rig is not given, so intervals of every coefficient are too narrow."
        remarks = (*remarks, Remark("caution", told, "uncertainty"))
    return CampaignReduced(tuple(found), remarks)


def _in_file(fault: InputError, path: Path) -> InputError:
    if (fault.key or "").startswith("trials."):
        return fault
    return InputError(fault.message, file=fault.file or str(path), line=fault.line, key=fault.key)


def logged(
    path: Path, tables: Mapping[str, Any], logger: Mapping[str, Any], run: Mapping[str, Any], names: Sequence[str]
) -> Iterator[Chunk]:
    """The channels of a logger's file, or of what the store keeps of it, evenly spaced at their own rates."""
    if of_store(path):
        rows = raw_chunks(path, names)  # as cut from the file when it was taken in
        return EvenRows(names, steps_of(tables, logger), logger["rate"], str(path)).chunks(rows)
    source = source_of(tables, logger, run)
    reading = read_logger(path, [source.columns[n] for n in names], source.form, str(path))
    return EvenRows(names, steps_of(tables, logger), logger["rate"], str(path)).chunks(
        cut_rows(rated(reading.chunks, logger, path.name), source.begin, source.end, str(path))
    )


def _corrected(given: Given, tick: Tick) -> tuple[Corrected, ...]:
    """Each reading in the open stream, by every method."""
    keys, campaign = given.keys, given.nodes["campaign"]
    flow = given.nodes["flow"]
    readings = [(r.run, i + 1, one) for r in campaign.runs for i, one in enumerate(r.reduction.readings)]
    fouled = fouled_readings(given.nodes["foulings"], campaign)
    loads = _predicted_loads(given, [one for _run, _i, one in readings])
    rows = []
    for (run, number, one), load in zip(readings, loads, strict=True):
        channel, predicted = channel_reading(one, flow, keys, load)
        rows.append(InChannel(run, number, one, channel, (run, number) not in fouled, predicted))
    told = Corrections(rows, flow, Walls(keys, flow), given.nodes["bands"])
    found = []
    for k in range(len(rows)):
        tick(k / len(rows))
        found.append(told.of(k))
    settled = one_method(found, told.curves)
    return tuple(told.open_stream(k, one) for k, one in enumerate(settled))


def _predicted_loads(given: Given, readings: Sequence[Reading]) -> list[float | None]:
    """The flow's load at each reading's stream and rotor speed, as predicted; None where there is no answer [-].

    A balance that carries the whole machine does not tell the rotor's load: with a duct the whole thrust passes a
    flat maximum in the working range. The prediction's load at the same tip-speed ratio stands for it.
    """
    if not readings:
        return []
    vanes, blades = given.nodes["rows"]
    stage = ready_stage(unit_of(given.keys), vanes, blades, given.nodes["flow"], readings[0].water)
    speed, turning = (np.array([getattr(one, key) for one in readings]) for key in ("stream_speed", "rotor_speed"))
    solved = solve_many(stage, speed, turning)
    load = np.full(speed.size, np.nan)
    load[solved.answered] = solved.load
    return [float(value) if np.isfinite(value) else None for value in load]


def fouled_readings(foulings: Sequence[RunFouling], campaign: CampaignReduced) -> frozenset[tuple[str, int]]:
    """Run and number of the readings in fouled stretches: they are not those of the clean machine."""
    by_run = {one.run: one for one in foulings}
    return frozenset(
        (r.run, k)
        for r in campaign.runs
        for k, one in enumerate(r.reduction.readings, start=1)
        if r.run in by_run and by_run[r.run].fouls(one.start, one.end)
    )


def _check(given: Given, tick: Tick) -> PredictionCheck:
    """The as-built machine at the test's stream speed, rotor speed and water."""
    return prediction_check(
        unit_of(given.keys),
        given.nodes["rows"],
        given.nodes["flow"],
        given.nodes["bands"],
        given.nodes["campaign"],
        given.nodes["corrected"],
        fouled=fouled_readings(given.nodes["foulings"], given.nodes["campaign"]),
        confidence=given.keys["trials.reduction.confidence"],
        on_rotor=given.keys["trials.rig.thrust_on"] == "rotor",
        tick=tick,
    )


def _foulings(given: Given, _tick: Tick) -> tuple[RunFouling, ...]:
    """Runs at one load, between their first and last tare."""
    keys, campaign = given.keys, given.nodes["campaign"]
    logger = keys["trials.logger"]
    channels, _weights, _remarks = channels_of(keys["trials.channels"], logger, given.files)
    wander = next(c.zero_wander for c in channels if c.role == "torque")
    everything = [one for r in campaign.runs for one in r.reduction.readings]
    found = []
    for reduced in campaign.runs:
        run = keys["trials.runs"][reduced.run]
        if run["one_load"]:
            found.append(_fouling(reduced, run, wander, everything))
    return tuple(found)


def _fouling(reduced: RunReduced, run: Mapping[str, Any], wander: float, everything: Sequence[Reading]) -> RunFouling:
    tares, whole = tares_of(run), reduced.reduction
    start = tares[0].end
    after = [t for t in tares if t.start > start]
    end = after[-1].start if after else whole.duration
    own = [one for one in whole.readings if one.start >= start and one.end <= end]
    if not own:
        return RunFouling(reduced.run, None, "no steady reading between its tares", start, end, run["cleaned"])
    margin = 0.5 * (own[0].end - own[0].start)
    series = whole.series.between(max(start, own[0].start - margin), min(end, own[-1].end + margin))
    ratio = [one.tip_speed_ratio.value for one in everything]
    torque = [one.torque_coefficient.value for one in everything]
    exponents = WIDE_EXPONENTS
    with suppress(InputError):  # too few readings at other loads: the wide range stands
        exponents = torque_exponent(ratio, torque, float(np.mean([one.tip_speed_ratio.value for one in own])))
    turning = (series.rotor_speed > 0.0) & (series.torque > 0.0) & (series.stream_speed > 0.0)
    try:
        fouled = fouling(
            series.time[turning],
            series.stream_speed[turning],
            series.rotor_speed[turning],
            series.torque[turning],
            cleaned=run["cleaned"],
            zero_wander=wander,
            tare_after=bool(after),
            exponents=exponents,
        )
    except InputError as fault:
        return RunFouling(reduced.run, None, fault.message, start, end, run["cleaned"])
    return RunFouling(reduced.run, fouled, "", start, end, run["cleaned"])


def _doses(given: Given, _tick: Tick) -> tuple[DoseRow, ...]:
    """Outcomes counted by card."""
    path = given.files.get("trials.pieces.file")
    pieces = pieces_of(given.keys["trials.pieces"], path)
    try:
        return dose_table(cards_of(given.keys["trials.doses"]), pieces)
    except InputError as fault:
        raise InputError(fault.message, file=None if path is None else str(path)) from None


_POINTS = "trials.channels.*.calibration.points.file"
_NEEDS = ("trials", "machine")

TRIALS_NODES = (
    Node(
        "campaign",
        3,
        _campaign,
        keys=("trials.rig", "trials.logger", "trials.channels", "trials.runs", "trials.reduction"),
        files=("trials.runs.*.file", _POINTS),
        nodes=("rows", "flow"),
        needs=_NEEDS,
    ),
    Node(
        "corrected",
        3,
        _corrected,
        keys=("trials.rig.surface", "trials.rig.thrust_on", *UNIT_KEYS),
        nodes=("campaign", "foulings", "rows", "flow", "bands"),
        needs=_NEEDS,
    ),
    Node(
        "prediction_check",
        3,
        _check,
        keys=(*UNIT_KEYS, "trials.rig.thrust_on", "trials.reduction.confidence"),
        nodes=("rows", "flow", "bands", "campaign", "foulings", "corrected"),
        needs=_NEEDS,
    ),
    Node(
        "foulings",
        2,
        _foulings,
        keys=("trials.logger", "trials.channels", "trials.runs"),
        files=(_POINTS,),
        nodes=("campaign",),
        needs=_NEEDS,
    ),
    Node(
        "doses",
        1,
        _doses,
        keys=("trials.doses", "trials.pieces"),
        files=("trials.pieces.file",),
        needs=("trials",),
    ),
)
