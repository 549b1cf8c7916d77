"""Write the invented example strait: three months of speed to east and north, and a histogram of many years.

Everything here is invented: no strait, no instrument, no survey. Five constituents and the overtide M4 run to and
fro on ellipses, flood towards about 60 degrees and ebb a few degrees off the way back; K2 and P1 follow S2 and K1 as
in the equilibrium tide; a steady residual current; turbulence and noise left after ten minutes' averaging; a week of
storm that drives the surface water and makes it rougher; four days without data while the instrument was out of the
water.

Run by hand after a change: `python tools/make_tidal_example.py [FOLDER]`. The seed is fixed, so the files come
out the same; a test compares them with the packaged ones.
"""

from __future__ import annotations

import math
import sys
from pathlib import Path

import numpy as np

from racewright.place import predict, site_from_tide, tide_from_table
from racewright.place.tide_result import Tide
from racewright.place.tide_turning import Turning

SEED = 20260301
START, DAYS, STEP = np.datetime64("2026-03-01T00:00", "s"), 92, 600
FOLDER = Path(__file__).parents[1] / "src" / "racewright" / "examples" / "tidal_unit"

LATITUDE = math.radians(58.0)
CONSTITUENTS = (
    # name, larger half axis [m/s], smaller [m/s], inclination from east [deg], Greenwich lag [deg]
    ("M2", 2.28, 0.06, 31.0, 214.0),
    ("S2", 0.78, 0.02, 31.0, 248.0),
    ("N2", 0.45, 0.01, 31.0, 190.0),
    ("K2", 0.212, 0.006, 31.0, 248.0),
    ("K1", 0.16, -0.01, 33.0, 72.0),
    ("O1", 0.11, -0.01, 33.0, 40.0),
    ("P1", 0.053, -0.003, 33.0, 72.0),
    ("M4", 0.14, 0.03, 70.0, 310.0),
)
RESIDUAL = (0.09, 0.02)
"""Current that stays when the tide is taken out, to east and north [m/s]."""
TURBULENCE, NOISE = 0.035, 0.03
"""What ten minutes leave of turbulence, over speed [-], and of the instrument [m/s]."""
STORM_DAY, STORM_LENGTH, STORM = 47.0, 7.0, (0.38, -0.21)
"""First day, days, and current at its height to east and north [m/s]."""
GAP = (63.3, 67.4)
"""Days without data."""


def strait() -> Tide:
    """The tide behind the record."""
    names, major, minor, lean, lag = zip(*CONSTITUENTS, strict=True)
    return tide_from_table(
        names,
        major,
        np.radians(lag),
        LATITUDE,
        kind="east north",
        minor=minor,
        inclination=np.radians(lean),
        mean=RESIDUAL,
    )


def record(rng: np.random.Generator) -> tuple[np.ndarray, np.ndarray]:
    """Stamps [s] and speeds to east and north [m/s]."""
    count = DAYS * 86400 // STEP
    day = np.arange(count) * STEP / 86400.0
    time = START.astype(np.int64) + STEP * np.arange(count, dtype=np.int64)
    speed = predict(strait(), time)
    into = np.clip((day - STORM_DAY) / STORM_LENGTH, 0.0, 1.0)
    height = np.sin(np.pi * into) ** 2
    rough = TURBULENCE * (1.0 + 1.5 * height) * np.hypot.reduce(speed, axis=1)
    speed = speed + height[:, None] * np.array(STORM)
    speed += np.hypot(rough, NOISE)[:, None] * rng.standard_normal(speed.shape)
    kept = (day < GAP[0]) | (day >= GAP[1])
    return time[kept], speed[kept]


def histogram() -> str:
    """Shares of speed that a machine which swings meets over the 18.6-year cycle, from the constituents."""
    found = site_from_tide(strait(), Turning("swings"), first_year=2027, flood_direction=math.radians(60.0))
    climate = found.site.climate
    head = (
        "# Invented: speeds over the 18.6-year cycle from the constituents of tools/make_tidal_example.py, for a\n"
        "# machine that swings on its tethers.\n"
        "speed_from,speed_to,share\n"
    )
    rows = zip(climate.edge[:-1], climate.edge[1:], climate.share, strict=True)
    return head + "".join(f"{low:.1f},{high:.1f},{share:.5f}\n" for low, high, share in rows)


def main(folder: Path) -> None:
    """Write both files."""
    (folder / "speeds.csv").write_text(histogram(), encoding="utf-8")
    time, speed = record(np.random.default_rng(SEED))
    stamp = np.datetime_as_string(time.astype("datetime64[s]"), unit="m")
    head = (
        "# Invented: no strait and no instrument. Made by tools/make_tidal_example.py from constituents, noise,\n"
        "# a storm and a gap. Ten-minute means at hub height, m/s to true east and true north; times are UTC.\n"
        "time,east_m_s,north_m_s\n"
    )
    rows = "".join(f"{t},{e:.2f},{n:.2f}\n" for t, (e, n) in zip(stamp, speed, strict=True))
    (folder / "stream.csv").write_text(head + rows, encoding="utf-8")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else FOLDER)
