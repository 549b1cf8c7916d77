"""Write the invented example reach: twelve years of daily discharge, one transect, gaugings for a rating.

Everything here is invented: no river, no gauge, no survey. The numbers that belong with the three files in a
scheme:

    transect          distance 0 to 60 m, thalweg at 27 m, datum arbitrary
    gaugings          scattered 4 % about discharge = 6.4 (level - 0.30 m)^2.32, m3/s and m
    machine           hung at 27 m, axis 1.20 m below the surface, outer radius about 0.65 m
    profile           exponent 1/6
    zone              UTC

Run by hand after a change: `python tools/make_example_record.py [FOLDER]`. The seed is fixed, so the files
come out the same; a test compares them with the packaged ones.
"""

from __future__ import annotations

import sys
from datetime import date, timedelta
from pathlib import Path

import numpy as np

SEED = 20120101
FIRST, LAST = date(2012, 1, 1), date(2023, 12, 31)
FOLDER = Path(__file__).parents[1] / "src" / "racewright" / "examples" / "river_unit"

# Day of the year and typical discharge [m3/s]: winter ice and frost, snowmelt, summer recession, autumn rain.
SEASON_DAY = (0, 45, 75, 105, 130, 150, 175, 205, 235, 262, 288, 310, 335, 365)
SEASON_FLOW = (92, 72, 74, 182, 400, 445, 320, 220, 165, 182, 236, 205, 138, 92)

# Bed level [m] by distance [m].
TRANSECT = (
    (0.0, 9.30),
    (3.0, 7.40),
    (6.5, 5.30),
    (10.0, 3.60),
    (14.0, 2.20),
    (18.0, 1.15),
    (22.0, 0.45),
    (27.0, 0.10),
    (32.0, 0.35),
    (36.5, 0.95),
    (41.0, 1.90),
    (46.0, 3.05),
    (51.0, 4.70),
    (56.0, 7.00),
    (60.0, 9.50),
)


RATING = (6.4, 0.30, 2.32)
"""Coefficient, zero level [m] and exponent behind the gaugings."""
GAUGED_LEVEL = (2.96, 3.05, 3.31, 3.52, 3.74, 3.99, 4.31, 4.68, 5.02, 5.36, 5.83, 6.21)
"""Levels gauged [m]: from a little above low water to a little below high water."""
GAUGED_SCATTER = 0.04
GAUGED_SEED = 1276
"""Chosen so that the fit with the zero level stated gives the rating back within a millimetre of level."""


def gaugings() -> list[str]:
    """Lines of level and discharge, scattered about the rating in the logarithm."""
    coefficient, zero, exponent = RATING
    rng = np.random.default_rng(GAUGED_SEED)
    flow = [coefficient * (h - zero) ** exponent * np.exp(rng.normal(0.0, GAUGED_SCATTER)) for h in GAUGED_LEVEL]
    return [f"{h:.2f},{q:.1f}" for h, q in zip(GAUGED_LEVEL, flow, strict=True)]


def discharge(days: list[date], rng: np.random.Generator) -> np.ndarray:
    """Daily discharge: a season that varies in size and date by year, slow weather, rain that recedes."""
    years = sorted({day.year for day in days})
    size = dict(zip(years, rng.normal(0.0, 0.14, len(years)), strict=True))
    late = dict(zip(years, rng.normal(0.0, 8.0, len(years)), strict=True))
    slow, rain, out = 0.0, 0.0, []
    for day in days:
        of_year = day.timetuple().tm_yday - 1.0
        shifted = (of_year - late[day.year] * np.sin(np.pi * of_year / 365.0)) % 365.0
        base = np.interp(shifted, SEASON_DAY, np.log(SEASON_FLOW))
        slow = 0.97 * slow + rng.normal(0.0, 0.035)
        wet = 0.035 if 5 <= day.month <= 11 else 0.004
        rain *= 0.86
        if rng.random() < wet:
            rain += rng.gamma(1.6, 0.125)
        weight = 0.35 + 0.65 * np.sin(np.pi * of_year / 365.0) ** 2
        out.append(float(np.exp(base + weight * size[day.year] + slow + rain)))
    return np.array(out)


def main(folder: Path) -> None:
    """Write the three files."""
    count = (LAST - FIRST).days + 1
    days = [FIRST + timedelta(days=i) for i in range(count)]
    flow = discharge(days, np.random.default_rng(SEED))
    lines = [f"{day.isoformat()},{value:.2f}" for day, value in zip(days, flow, strict=True)]
    (folder / "discharge.csv").write_text("date,discharge_m3s\n" + "\n".join(lines) + "\n", encoding="utf-8")
    rows = [f"{x:.1f},{bed:.2f}" for x, bed in TRANSECT]
    (folder / "transect.csv").write_text("distance_m,bed_level_m\n" + "\n".join(rows) + "\n", encoding="utf-8")
    (folder / "gaugings.csv").write_text("level_m,discharge_m3s\n" + "\n".join(gaugings()) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else FOLDER)
