"""The logger files of the bundled half-kilowatt example: invented by a formula with a seed, nothing measured."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from racewright.trials.synthetic import synthetic_campaign
from racewright.trials.synthetic_machine import Curve, Model
from racewright.trials.synthetic_plan import Leaves, Plan, Stretch, invented_sensors
from racewright.trials.synthetic_sensor import Faults, Sensor
from racewright.trials.synthetic_text import logger_lines
from racewright.trials.synthetic_truth import INVENTED

Floats = NDArray[np.float64]
SEED = 20260
RATE = 20.0
"""Rows a second of the example's logger [Hz]."""
_POWER = (0.283, 0.208, -0.0434, -0.0047)
_THRUST = (0.786, 0.028, -0.0242)
"""Ascending powers of tip-speed ratio: the invented machine's curves in an open stream."""
_WIDE, _NARROW, _DEPTH = 3.0, 1.6, 3.0
_BLOCKED = (1.45, 0.95)
"""Growth of CP and CT by blockage of the rotor's annulus. Invented."""


def invented_files(folder: Path) -> Iterator[Path]:
    """Write logger files and calibration sheets into `folder`; yields each file when it is whole."""
    plans = {
        "loads.csv": _plan(_WIDE, (1.2, 1.5, 1.8, 2.1, 2.4, 2.7, 3.0, 3.3)),
        "narrow.csv": _plan(_NARROW, (1.5, 2.1, 2.7)),
        "weed.csv": _weed(),
    }
    for number, (name, plan) in enumerate(plans.items()):
        campaign = synthetic_campaign(plan, SEED)
        if not number:
            yield from _sheets(plan, folder)
        campaign = replace(campaign, seed=SEED + number)
        with (folder / name).open("w", encoding="utf-8", newline="\n") as stream:
            stream.writelines(line + "\n" for line in logger_lines(campaign))
        yield folder / name


def _sheets(plan: Plan, folder: Path) -> Iterator[Path]:
    """One calibration sheet a sensor, with the points that the invented workshop took."""
    rng = np.random.default_rng(np.random.SeedSequence(SEED, spawn_key=(1,)))
    rng.standard_normal()
    for sensor in plan.sensors:
        raw, value, _error = sensor.calibration_points(rng)
        lines = [f"# {INVENTED}", "raw,value", *(f"{a:.8g},{b:.8g}" for a, b in zip(raw, value, strict=True))]
        path = folder / f"calibration_{sensor.name}.csv"
        path.write_text("\n".join(lines) + "\n", "utf-8")
        yield path


def _plan(width: float, loads: tuple[float, ...]) -> Plan:
    stretches = [Stretch(60.0, tare=True), *(Stretch(150.0, ratio) for ratio in loads), Stretch(60.0, tare=True)]
    return Plan(
        stretches=stretches,
        model=_model(width),
        sensors=_sensors(),
        stream_speed=2.4,
        turbulence=0.04,
        drift=0.004,
        channel_width=width,
        depth=_DEPTH,
        axis_height=0.5 * _DEPTH,
        faults=Faults(spikes=6.0, dropouts=2.0, nuts=4.0),
    )


def _sensors() -> tuple[Sensor, ...]:
    """The usual ones, with a gauge for a deeper channel."""
    return tuple(replace(s, full_scale=4.0) if s.role == "level" else s for s in invented_sensors(RATE))


def _weed() -> Plan:
    """Fifty minutes at one load; weed gathers on the vanes from minute ten on and is taken off at minute forty."""
    stretches = [Stretch(60.0, tare=True), Stretch(3000.0, 2.1), Stretch(60.0, tare=True)]
    leaves = Leaves(start=660.0, seconds=1740.0, loss=0.05, cleaned=2460.0, left=0.1)
    return replace(_plan(_WIDE, ()), stretches=stretches, leaves=leaves)


def _model(width: float) -> Model:
    blades = Model(tip_radius=0.215740, hub_radius=0.056, duct_radius=0.2778, blades=5, vanes=7, angle_error=0.007)
    blocked = blades.annulus_area / (width * _DEPTH)
    power = _curve(_POWER, 1.0 + _BLOCKED[0] * blocked)
    return replace(blades, power=power, thrust=_curve(_THRUST, 1.0 + _BLOCKED[1] * blocked))


def _curve(powers: tuple[float, ...], factor: float) -> Curve:
    def curve(tip_speed_ratio: Floats) -> Floats:
        return np.asarray(factor * np.polynomial.polynomial.polyval(tip_speed_ratio, powers))

    return curve
