"""Invented trials for the dossier's tests: a small record reduced in earnest, prediction and fouling made up."""

from __future__ import annotations

import functools
import math
from dataclasses import replace
from typing import Any

import numpy as np

from racewright.ledger.trials_findings import (
    CampaignReduced,
    Compared,
    Corrected,
    PredictionCheck,
    Region,
    RunFouling,
    RunReduced,
    Sensor,
    TrialsFindings,
)
from racewright.remark import Remark
from racewright.trials import Chunk, Rig, Settings, reduce
from racewright.trials.blockage_compare import blockage
from racewright.trials.blockage_result import ChannelReading
from racewright.trials.channel import Span
from racewright.trials.doses import DoseCard, Piece, dose_table
from racewright.trials.fouling import Fouling
from racewright.trials.result import Reading, Reduction
from racewright.trials.series import Series
from racewright.trials.unbounded_record import RecordReading
from tests.dossier import sample
from tests.trials.record import RATES, channels, values

RIG = Rig(
    sample.RT - 0.005, sample.RH, 5, 9, 6.0, 4.0, 2.0, float(np.max(sample.machine().flow.duct_r)), 0.15, 0.35
)  # fmt: skip
NARROW = replace(RIG, channel_width=3.6)
SPEED, LOADS = 1.5, (1.6, 2.0, 2.6)
TARE, WINDOW, RAMP = 40.0, 60.0, 20.0


def blocked(rig: Rig) -> float:
    """Blockage: the duct's circle over the channel [-]."""
    return math.pi * rig.blocked_radius**2 / (rig.channel_width * rig.depth)


def power(ratio: Any) -> Any:
    """CP of the stand-in [-]."""
    return 0.62 - 0.2 * (ratio - 1.9) ** 2


def _torque(ratio: float, seconds: float, rig: Rig, seed: int) -> np.ndarray:
    """Torque with 4 % at blade passing and noise [N m]."""
    rotor = ratio * SPEED / rig.tip_radius
    mean = (1.0 + blocked(rig)) * power(ratio) * 0.5 * 999.5 * rig.annulus_area * SPEED**3 / rotor
    time = np.arange(round(seconds * RATES["torque"])) / RATES["torque"]
    noise = 0.01 * np.random.default_rng(seed).standard_normal(time.size)
    return mean * (1.0 + 0.04 * np.cos(rig.blades * rotor * time) + noise)


def _stretch(ratio: float | None, seconds: float, rig: Rig, seed: int) -> dict[str, np.ndarray]:
    """Raw readings at one load; still water and a standing rotor without one."""
    if ratio is None:
        return values(seconds, seed, speed=0.0, torque=0.05, rotor_speed=0.0, thrust=0.4, level=rig.depth)
    thrust = 0.9 * 0.5 * 999.5 * rig.annulus_area * SPEED**2
    rotor = ratio * SPEED / rig.tip_radius
    found = values(seconds, seed, speed=SPEED, rotor_speed=rotor, thrust=thrust, level=rig.depth)
    return {**found, "torque": _torque(ratio, seconds, rig, seed)}


@functools.cache
def reduction(rig: Rig, loads: tuple[float, ...]) -> Reduction:
    """Tare, loads, tare; one stretch where the load changes, and one spike of the torque."""
    parts = [(None, TARE), *((load, WINDOW + RAMP) for load in loads), (None, TARE)]
    pieces = [_stretch(load, seconds, rig, k) for k, (load, seconds) in enumerate(parts)]
    raw = {role: np.concatenate([p[role] for p in pieces]) for role in RATES}
    raw["torque"][round((TARE + 30.0) * RATES["torque"])] *= 40.0
    seconds = round(sum(s for _load, s in parts))
    chunks = [
        Chunk(float(a), {role: v[round(a * RATES[role]) : round((a + 10) * RATES[role])] for role, v in raw.items()})
        for a in range(0, seconds, 10)
    ]
    tared = channels(torque={"tared": True}, thrust={"tared": True})
    tares = (Span(0.0, TARE), Span(seconds - TARE, float(seconds)))
    return reduce(chunks, tared, rig, tares=tares, settings=Settings(window=WINDOW))


def _in_channel(one: Reading) -> ChannelReading:
    return ChannelReading(
        one.power_coefficient.value,
        0.8 * one.thrust_coefficient.value,
        one.tip_speed_ratio.value,
        0.5 * one.numbers.blockage,
        one.numbers.froude_number,
        ducted=True,
    )


def _record(one: Reading) -> RecordReading:
    told = _in_channel(one)
    return RecordReading(
        told.blockage,
        told.power_coefficient,
        told.thrust_coefficient,
        told.tip_speed_ratio,
        one.power_coefficient.standard_uncertainty,
        one.thrust_coefficient.standard_uncertainty,
    )


def corrected(run: str, number: int, one: Reading, others: tuple[Reading, ...] = ()) -> Corrected:
    """By every method that wants no flow of the machine, or by the record with other readings."""
    record = [_record(r) for r in (one, *others)] if others else []
    told = blockage(_in_channel(one), record=record)
    if told.record is not None and told.preferred == "record":
        r = told.record
        return Corrected(
            run, number, told, None, r.power_coefficient, one.thrust_coefficient.value, r.tip_speed_ratio,
            r.power_uncertainty, r.thrust_uncertainty,
        )  # fmt: skip
    best = told[told.preferred or "open"]
    ratio = best.stream_ratio or 1.0
    return Corrected(
        run, number, told, ratio, best.power_coefficient, one.thrust_coefficient.value / ratio**2,
        best.tip_speed_ratio, one.power_coefficient.standard_uncertainty,
        one.thrust_coefficient.standard_uncertainty,
    )  # fmt: skip


def compared(one: Corrected, residual: float, region: str) -> Compared:
    """Beside a prediction that lies off by so much, with a band of 25 % either way."""
    measured = one.power_coefficient or 0.0
    told = measured / (1.0 + residual)
    return Compared(
        one.run, one.number, region, SPEED, 6.0, one.tip_speed_ratio or 0.0, measured, one.thrust_coefficient or 0.0,
        0.01, 0.01, told, 0.75 * told, 1.25 * told, (one.thrust_coefficient or 0.0) / 0.97, residual, -0.03,
        abs(residual) < 0.27, 3e5, "",
    )  # fmt: skip


def _fouled(clean: Reduction) -> RunReduced:
    """An hour near one load, rotor speed 3 % up and down, that loses 6 % from minute 20 to its cleaning at 50."""
    time = np.arange(5.0, 3600.0, 10.0)
    rng = np.random.default_rng(3)
    speed = SPEED * (1.0 + 0.01 * rng.standard_normal(time.size))
    lost = np.where(time < 3000.0, 0.06 * np.clip((time - 1200.0) / 1800.0, 0.0, 1.0), 0.0)
    rotor = LOADS[1] * SPEED / RIG.tip_radius * (1.0 + 0.03 * np.sin(time / 60.0))
    ratio = rotor * RIG.tip_radius / speed
    torque = 100.0 * speed**2 * power(ratio) / ratio * (1.0 - lost) * (1.0 + 0.003 * rng.standard_normal(time.size))
    series = Series(time, speed, rotor, torque, np.full(time.size, 700.0))
    one = clean.readings[1]
    readings = tuple(replace(one, start=60.0 * k, end=60.0 * k + 60.0) for k in range(1, 58))
    return RunReduced("weed", RIG, replace(clean, readings=readings, refusals=(), duration=3600.0, series=series))


FOULING = Fouling(True, 1980.0, 0.058, 0.049, 0.067, 1230.0, 0.056, 0.05, 0.062, "loss above 1 %")
SENSORS = tuple(
    Sensor(role, role, role, unit, part, "invented", RATES[role])
    for role, unit, part in (
        ("level", "V", "LV-1"), ("rotor_speed", "counts", "SH-4"), ("speed", "V", "FL-4"), ("temperature", "V", ""),
        ("thrust", "mV", "AX-8"), ("torque", "mV", "SH-6"),
    )
)  # fmt: skip


def _doses() -> tuple[DoseCard, ...]:
    return (
        DoseCard("leaves", "leaf", 0.09, 0.05, 0.0003, 1020.0, 60, 2.0),
        DoseCard("sticks", "stick", 0.15, 0.008, 0.008, 950.0, 20, 2.0),
        DoseCard("mats", "weed", 0.4, 0.3, 0.05, 1010.0, 2, 2.0),
    )


def _pieces() -> tuple[Piece, ...]:
    return (
        *(Piece("leaves", "passed") for _ in range(59)),
        Piece("leaves", "missed the duct"),
        *(Piece("sticks", "passed") for _ in range(14)),
        Piece("sticks", "struck and passed", "rotor"),
        Piece("sticks", "lodged", "vane row", "by hand", 90.0),
        Piece("sticks", "lodged", "rotor", "rotor stopped", 20.0),
        *(Piece("mats", "missed the duct") for _ in range(2)),
    )


@functools.cache
def trials() -> TrialsFindings:
    """Three loads in a wide channel, one in a narrow one, a run that fouls, three doses."""
    wide, narrow = reduction(RIG, LOADS), reduction(NARROW, (LOADS[1],))
    weed = _fouled(wide)
    mid, near = wide.readings[1], narrow.readings[0]
    clean = (
        corrected("loads", 1, wide.readings[0]),
        corrected("loads", 2, mid, (near,)),
        corrected("loads", 3, wide.readings[2]),
        corrected("narrow", 1, near, (mid,)),
    )
    other = corrected("weed", 1, mid)
    fouled = tuple(replace(other, number=k) for k in range(1, len(weed.reduction.readings) + 1))
    rows = tuple(
        compared(c, r, region)
        for c, r, region in zip(clean, (-0.06, -0.02, -0.31, -0.03), ("below", "near", "above", "near"), strict=True)
    )
    regions = (
        Region("below", 1, 1, 1, -0.06, -0.03, 0.0),
        Region("near", 2, 2, 2, -0.025, -0.03, 0.007),
        Region("above", 1, 0, 1, -0.31, -0.03, 0.0),
    )
    remarks = (
        Remark("note", "Invented for the tests.", "trials"),
        Remark("warning", "One lies outside.", "comparison"),
    )
    return TrialsFindings(
        "flume",
        "Runs of one day, invented for the tests.",
        True,
        "free",
        "whole machine",
        0.95,
        SENSORS,
        CampaignReduced((RunReduced("loads", RIG, wide), RunReduced("narrow", NARROW, narrow), weed), ()),
        (*clean, *fouled),
        PredictionCheck(rows, regions, ()),
        (
            RunFouling("weed", FOULING, "", 40.0, 3560.0, 3000.0),
            RunFouling("short", None, "too few rows", 0.0, 60.0, None),
        ),
        dose_table(_doses(), _pieces()),
        remarks,
    )


def without_readings() -> TrialsFindings:
    """The same campaign where no stretch was steady."""
    whole = trials()
    bare = tuple(replace(r, reduction=replace(r.reduction, readings=())) for r in whole.campaign.runs)
    return replace(
        whole,
        campaign=CampaignReduced(bare, ()),
        corrected=(),
        check=PredictionCheck((), (), ()),
        foulings=(RunFouling("weed", None, "no steady reading between its tares", 0.0, 1.0, None),),
        doses=(),
    )
