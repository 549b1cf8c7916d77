"""Made-up tides for the tests."""

from __future__ import annotations

import numpy as np

from racewright.place.tide_record import TideRecord, tide_record

START = 1_704_067_200
"""2024-01-01 00:00 UTC [s]."""
SPEEDS = {"M2": 28.9841042, "S2": 30.0, "N2": 28.4397295, "K1": 15.0410686, "O1": 13.9430356}
"""[deg/h]"""


def stamps(days: float, step: int = 600) -> np.ndarray:
    return START + step * np.arange(round(days * 86400 / step), dtype=np.int64)


def wave(time: np.ndarray, parts: dict[str, tuple[float, float]]) -> np.ndarray:
    """Sum of amplitude cos(speed t - lag), lag in degrees, t from START; amplitudes do not change over the years."""
    hours = (time - START) / 3600.0
    return sum(a * np.cos(np.radians(SPEEDS[name] * hours - lag)) for name, (a, lag) in parts.items())


def strait(days: float = 60.0, noise: float = 0.0, heading: float = 0.9, seed: int = 3) -> TideRecord:
    """Speeds to east and north of a stream that runs to and fro on one line, `heading` clockwise from north [rad]."""
    time = stamps(days)
    along = wave(
        time, {"M2": (2.0, 40.0), "S2": (0.6, 75.0), "N2": (0.4, 10.0), "K1": (0.2, 120.0), "O1": (0.1, 90.0)}
    )
    rng = np.random.default_rng(seed)
    east, north = (along * trig(heading) + noise * rng.standard_normal(time.size) for trig in (np.sin, np.cos))
    return tide_record(time, east=east, north=north)
