"""How the machine runs on load at given stream speeds: by its law, or as rated power is held."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from racewright.ledger.drive_findings import DriveControl
from racewright.stage.result import State

Floats = NDArray[np.float64]

_HELD = {
    "slow": "Rated power is held by slowing the rotor.",
    "speed up": "Rated power is held by letting the rotor speed up.",
    "dump": "Rated power is held by dumping the rest.",
}
_NOT_HELD = "Rated power is not held here: the figures are those that holding it would take."


def on_load(
    control: DriveControl, stream_speed: Floats, design_ratio: float, tip_radius: float
) -> tuple[Floats, Mapping[float, str]]:
    """Tip-speed ratio at each stream speed, NaN where the drive has no answer, and words by stream speed [-].

    On the torque law the design's ratio stands for itself: the law drifts a little with Reynolds number.
    """
    curve = control.way.curve
    ratio, words = np.full(stream_speed.size, np.nan), {}
    for i, speed in enumerate(stream_speed.tolist()):
        if not curve.stream_speed[0] < speed <= curve.stream_speed[-1] + 1e-9:
            continue
        nearest = int(np.argmin(np.abs(curve.stream_speed - speed)))
        status = curve.status[nearest]
        turning = float(np.interp(speed, curve.stream_speed, curve.rotor_speed)) * tip_radius / speed
        if status == "on law":
            ratio[i] = design_ratio if control.law == "tip-speed ratio" else turning
        elif status in ("held", "not held"):
            ratio[i] = turning
            words[speed] = _HELD[control.how] if status == "held" else _NOT_HELD
    return ratio, words


def with_words(state: State, words: Mapping[float, str]) -> State:
    """The state on load with what is to be said of how it runs."""
    said = words.get(state.stream_speed, "") if state.name == "on load" else ""
    return replace(state, remark=f"{said} {state.remark}".strip()) if said else state
