"""The fit itself: to the library `utide` and back."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from racewright.place.result import Floats
from racewright.place.tide_constants import RATIOS, angular_speed
from racewright.place.tide_record import TideRecord
from racewright.place.tide_result import TideConstituent

LEAST_SIGNAL = 2.0
"""Signal to noise from which a constituent is used in prediction (common practice) [-]."""
UNEVEN_MOST = 6000
"""Uneven stamps up to which errors come from the residual's own spectrum; beyond, from white noise."""


def solved(
    record: TideRecord,
    latitude: float,
    names: tuple[str, ...],
    inferred: tuple[str, ...],
    *,
    nodal: bool,
    trend: bool,
    method: str,
) -> tuple[Any, bool]:
    """The library's answer, and whether its errors know the residual's colour."""
    import utide
    from utide.utilities import Bunch

    stamp, value, even = _gridded(record)
    coloured = even or record.time.size <= UNEVEN_MOST
    ratios = None
    if inferred:
        count = len(inferred) * (2 if record.kind == "east north" else 1)
        amplitude = [RATIOS[name][1] for name in inferred] * (count // len(inferred))
        ratios = Bunch(
            inferred_names=list(inferred),
            reference_names=[RATIOS[name][0] for name in inferred],
            amp_ratios=amplitude,
            phase_offsets=[0.0] * count,
        )
    # A latitude of exactly 0 has no sign, which the library needs for its smallest latitude of 5 degrees.
    found = utide.solve(
        stamp.astype("datetime64[s]"),
        *value.T,
        lat=math.degrees(latitude) or 1e-9,
        constit=list(names),
        conf_int="linear",
        method="robust" if method == "robust" else "ols",
        trend=trend,
        nodal=nodal,
        infer=ratios,
        white=not coloured,
        verbose=False,
    )
    return found, coloured


def _gridded(record: TideRecord) -> tuple[Any, Floats, bool]:
    """Stamps on their own even grid, blank in gaps, where they fall on one; else as they are."""
    step = int(np.median(np.diff(record.time)))
    place, off = np.divmod(record.time - record.time[0], step)
    if off.any() or int(place[-1]) + 1 > 2 * record.time.size:
        return record.time, record.value, False
    stamp = record.time[0] + step * np.arange(int(place[-1]) + 1, dtype=np.int64)
    value: Floats = np.full((stamp.size, record.value.shape[1]), np.nan)
    value[place] = record.value
    return stamp, value, True


def rows_of(found: Any, inferred: tuple[str, ...], kind: str) -> tuple[TideConstituent, ...]:
    """The library's arrays as rows; degrees become radians."""
    two = kind == "east north"
    none = np.zeros(len(found.name))
    size, error = (found.Lsmaj, found.Lsmaj_ci) if two else (found.A, found.A_ci)
    minor, minor_error = (found.Lsmin, found.Lsmin_ci) if two else (none, none)
    lean, lean_error = (found.theta, found.theta_ci) if two else (none, none)
    return tuple(
        TideConstituent(
            name=str(name),
            origin="inferred" if str(name) in inferred else "fitted",
            angular_speed=angular_speed(str(name)),
            amplitude=float(size[i]),
            amplitude_error=float(error[i]),
            minor=float(minor[i]),
            minor_error=float(minor_error[i]),
            inclination=math.radians(float(lean[i])),
            inclination_error=math.radians(float(lean_error[i])),
            phase=math.radians(float(found.g[i])),
            phase_error=math.radians(float(found.g_ci[i])),
            signal_to_noise=float(found.SNR[i]),
            share=float(found.PE[i]) / 100.0,
            kept=bool(found.SNR[i] >= LEAST_SIGNAL),
        )
        for i, name in enumerate(found.name)
    )
