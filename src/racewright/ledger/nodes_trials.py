"""The trials' nodes: runs reduced, walls taken off, set against prediction, fouling looked for, debris counted."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np

from racewright.errors import InputError, NoAnswerError
from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.result import Axisymmetric
from racewright.ledger.convert import UNIT_KEYS, duct_of, hub_of, unit_of
from racewright.ledger.node import Given, Node
from racewright.ledger.trials_check import prediction_check
from racewright.ledger.trials_findings import CampaignReduced, Corrected, PredictionCheck, RunFouling, RunReduced
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
from racewright.machine.duct_contour import duct_contour
from racewright.machine.hub_contour import hub_contour
from racewright.records.campaign.cut_rows import cut_rows
from racewright.records.campaign.even_rows import EvenRows
from racewright.records.campaign.logger import read_logger
from racewright.remark import Remark
from racewright.stage.solve import solve_many
from racewright.stage.stage_ready import ready_stage
from racewright.tick import Tick
from racewright.trials.blockage_compare import blockage
from racewright.trials.blockage_result import Blockage, ChannelReading
from racewright.trials.channel import Chunk
from racewright.trials.doses import DoseRow, dose_table
from racewright.trials.exponent import torque_exponent
from racewright.trials.fouling import fouling
from racewright.trials.machine_response import MachineResponse, response_of_flow, wall_radius
from racewright.trials.reduce import reduce
from racewright.trials.result import Reading
from racewright.trials.unbounded_record import SAME_TIP_SPEED, RecordReading

OTHER_WALL = 0.1
"""Relative difference from which two blockages count as two for the record. Own choice."""
_SAME_WALL = 0.005
"""Relative difference of blockage within which one solved wall serves, half of what the estimate allows."""
_PANELS = 60
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
    """The channels of a logger's file, evenly spaced at their own rates."""
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
    fouled = fouled_runs(given.nodes["foulings"])
    loads = _predicted_loads(given, [one for _run, _i, one in readings])
    channel = [_channel_reading(one, flow, keys, load) for (_run, _i, one), load in zip(readings, loads, strict=True)]
    walls = _Walls(keys, flow)
    free = response_of_flow(flow)
    found = []
    for k, (run, number, one) in enumerate(readings):
        tick(k / max(len(readings), 1))
        record = _record(k, readings, channel, fouled)
        try:
            told = blockage(channel[k], free=free, walled=walls.of(channel[k].blockage), record=record)
        except InputError as fault:
            told = blockage(channel[k], free=free, walled=walls.of(channel[k].blockage))
            why = Remark("note", f"Readings at another blockage make no record: {fault.message}.", "blockage")
            told = replace(told, remarks=(*told.remarks, why))
        found.append(_in_open_stream(run, number, one, told))
    return tuple(found)


class _Walls:
    """The machine between round walls, solved once for blockages that are nearly alike."""

    def __init__(self, keys: Mapping[str, Any], flow: Axisymmetric) -> None:
        self._keys, self._flow = keys, flow
        self._solved: list[tuple[float, MachineResponse | None]] = []

    def of(self, share: float) -> MachineResponse | None:
        """Response at a blockage; None where the flow between such walls has no answer."""
        for known, solved in self._solved:
            if abs(known - share) <= _SAME_WALL * share:
                return solved
        duct_x, duct_r = duct_contour(duct_of(self._keys), _PANELS)
        hub_x, hub_r = hub_contour(hub_of(self._keys), _PANELS)
        try:
            flow = axisymmetric(
                duct_x,
                duct_r,
                hub_x=hub_x,
                hub_r=hub_r,
                rotor_x=self._keys["machine.rotor"]["place_x"],
                channel_radius=wall_radius(self._flow.annulus_area, share),
            )
            response = response_of_flow(flow)
        except (InputError, NoAnswerError):  # such walls are too near; the wall estimate then says that it is missing
            self._solved.append((share, None))
            return None
        self._solved.append((share, response))
        return response


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


def _channel_reading(one: Reading, flow: Axisymmetric, keys: Mapping[str, Any], load: float | None) -> ChannelReading:
    """The reading with the rotor's load: measured where the balance carries the rotor, else predicted."""
    measured = keys["trials.rig.thrust_on"] == "rotor"
    numbers = one.numbers
    outer = math.pi * float(flow.duct_r.max()) ** 2  # the circle that the reading's blockage stands on
    return ChannelReading(
        power_coefficient=abs(one.power_coefficient.value),  # its sign is given back in `_in_open_stream`
        thrust_coefficient=max(one.thrust_coefficient.value, 0.0) if measured or load is None else load,
        tip_speed_ratio=one.tip_speed_ratio.value,
        blockage=numbers.blockage * flow.annulus_area / outer,
        froude=numbers.froude_number if keys["trials.rig.surface"] == "free" else None,
        ducted=True,
        thrust="rotor" if measured or load is not None else "total",
    )


def _record(
    k: int,
    readings: Sequence[tuple[str, int, Reading]],
    channel: Sequence[ChannelReading],
    fouled: frozenset[str],
) -> tuple[RecordReading, ...]:
    """This reading and those at the same tip-speed ratio and another blockage; empty without such, or fouled."""
    own = channel[k]
    if readings[k][0] in fouled:
        return ()
    others = [
        j
        for j, one in enumerate(channel)
        if readings[j][0] not in fouled
        and abs(one.blockage / own.blockage - 1.0) > OTHER_WALL
        and abs(one.tip_speed_ratio / own.tip_speed_ratio - 1.0) < 0.5 * SAME_TIP_SPEED
    ]
    if not others:
        return ()
    return tuple(
        RecordReading(
            channel[j].blockage,
            readings[j][2].power_coefficient.value,
            max(readings[j][2].thrust_coefficient.value, 0.0),
            channel[j].tip_speed_ratio,
            readings[j][2].power_coefficient.standard_uncertainty,
            readings[j][2].thrust_coefficient.standard_uncertainty,
        )
        for j in (k, *others)
    )


def fouled_runs(foulings: Sequence[RunFouling]) -> frozenset[str]:
    """Runs in which fouling was found: their readings are not those of the clean machine."""
    return frozenset(one.run for one in foulings if one.found is not None and one.found.found)


def _in_open_stream(run: str, number: int, one: Reading, told: Blockage) -> Corrected:
    """The preferred estimate with the spread of the valid ones as a further doubt."""
    if told.preferred is None:
        return Corrected(run, number, told, None, None, None, None, None, None)
    if told.preferred == "record" and told.record is not None:
        record = told.record
        return Corrected(
            run, number, told, 1.0, record.power_coefficient, record.thrust_coefficient, record.tip_speed_ratio,
            record.power_uncertainty, record.thrust_uncertainty,
        )  # fmt: skip
    best = told[told.preferred]
    power, ratio = best.power_coefficient, best.stream_ratio
    if power is not None:
        power = math.copysign(power, one.power_coefficient.value)
    thrust = None if ratio is None else one.thrust_coefficient.value / ratio**2
    wide = [0.0, 0.0]
    if told.spread is not None:
        least, most = told.spread.stream_ratio
        doubt = (most - least) / (2.0 * math.sqrt(3.0))
        wide = [3.0 * abs(power or 0.0) * doubt, 2.0 * abs(thrust or 0.0) * doubt]
    own = (
        _scaled(one.power_coefficient.standard_uncertainty, power, one.power_coefficient.value),
        _scaled(one.thrust_coefficient.standard_uncertainty, thrust, one.thrust_coefficient.value),
    )
    return Corrected(
        run, number, told, best.stream_ratio, power, thrust, best.tip_speed_ratio, math.hypot(own[0], wide[0]),
        math.hypot(own[1], wide[1]),
    )  # fmt: skip


def _scaled(uncertainty: float, corrected: float | None, measured: float) -> float:
    return uncertainty * abs((corrected or 0.0) / measured) if measured else uncertainty


def _check(given: Given, tick: Tick) -> PredictionCheck:
    """The as-built machine at the test's stream speed, rotor speed and water."""
    return prediction_check(
        unit_of(given.keys),
        given.nodes["rows"],
        given.nodes["flow"],
        given.nodes["bands"],
        given.nodes["campaign"],
        [c for c in given.nodes["corrected"] if c.run not in fouled_runs(given.nodes["foulings"])],
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
        return RunFouling(reduced.run, None, "no steady reading between its tares", start, end)
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
        return RunFouling(reduced.run, None, fault.message, start, end)
    return RunFouling(reduced.run, fouled, "", start, end)


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
        2,
        _campaign,
        keys=("trials.rig", "trials.logger", "trials.channels", "trials.runs", "trials.reduction"),
        files=("trials.runs.*.file", _POINTS),
        nodes=("rows", "flow"),
        needs=_NEEDS,
    ),
    Node(
        "corrected",
        2,
        _corrected,
        keys=("trials.rig.surface", "trials.rig.thrust_on", *UNIT_KEYS),
        nodes=("campaign", "foulings", "rows", "flow"),
        needs=_NEEDS,
    ),
    Node(
        "prediction_check",
        2,
        _check,
        keys=(*UNIT_KEYS, "trials.rig.thrust_on"),
        nodes=("rows", "flow", "bands", "campaign", "foulings", "corrected"),
        needs=_NEEDS,
    ),
    Node(
        "foulings",
        1,
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
