"""What the reader of an estimate from spot speeds must know."""

from __future__ import annotations

import numpy as np

from racewright.place.result import Floats
from racewright.remark import Remark

FEW = 4
"""Fewer spot speeds than this is a caution (rule of this program)."""

APART = 0.4
"""Exceedances of the spots should span at least this much (rule of this program) [-]."""

SEASON = 90.0
"""Spots within so many days show one season only (rule of this program) [d]."""


def spot_remarks(time: Floats, exceedance: Floats, relative: float, basis: str) -> list[Remark]:
    """Remarks on an estimate from spots; the first is always there.

    Parameters
    ----------
    time : ndarray, shape (n,)
        [s since 1970-01-01 UTC]
    exceedance : ndarray, shape (n,)
        Of the flow at each spot [-].
    relative : float
        Standard error of speed [-].
    basis : str
        Where the shape comes from.
    """
    first, last = (np.datetime64(int(t), "s").astype("datetime64[D]") for t in (time.min(), time.max()))
    text = (
        f"Estimated, not recorded: {time.size} spot speed(s) from {first} to {last} scale {basis}. Every speed may "
        f"be {-100 * np.expm1(-2 * relative):.0f} % less or {100 * np.expm1(2 * relative):.0f} % more (95 %), and "
        "energy goes with its cube; measure before money is spent."
    )
    found = [Remark("warning", text, "spot speeds")]
    if time.size < FEW:
        found.append(Remark("caution", f"{time.size} spot speed(s) hardly show their own scatter.", "spot speeds"))
    if float(np.ptp(exceedance)) < APART:
        text = (
            f"The spots' flows lie within {100 * float(np.ptp(exceedance)):.0f} % of exceedance: how speed changes "
            "with flow is all from the shape; measure at low and at high water."
        )
        found.append(Remark("caution", text, "spot speeds"))
    if time.size > 1 and float(np.ptp(time)) < SEASON * 86400.0:
        found.append(Remark("caution", f"All spots lie within {SEASON:.0f} days: one season only.", "spot speeds"))
    return found
