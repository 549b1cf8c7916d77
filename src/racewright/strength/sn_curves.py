"""S-N curves: cycles to failure over stress range, of one or two straight lines in log-log."""

from __future__ import annotations

import math
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.safety import SafetyBasis, safety_basis
from racewright.strength.door import finite, positive, within

Floats = NDArray[np.float64]
MEGAPASCAL = 1e6
_STEP = 0.02
"""Largest relative step in range at the break that is taken for rounding of the constants."""


@dataclass(frozen=True, slots=True)
class SNCurve:
    """log10(cycles) = log_a - slope log10(range in MPa), and a second line beyond the break.

    Attributes
    ----------
    key : str
        Such as 'd_sea_protected', or a name of the user's.
    detail, environment : str
        Class of the detail, and in what it stands.
    slope, log_a : float
        > 0 [-]; logarithm to base 10, range in MPa.
    break_cycles : float or None
        Where the second line begins; None for one line [-].
    slope_beyond, log_a_beyond : float or None
    reference_thickness : float or None
        Thicker parts have their range raised by (thickness / reference)^exponent [m].
    thickness_exponent : float
        [-]
    safety : SafetyBasis
    """

    key: str
    detail: str
    environment: str
    slope: float
    log_a: float
    break_cycles: float | None
    slope_beyond: float | None
    log_a_beyond: float | None
    reference_thickness: float | None
    thickness_exponent: float
    safety: SafetyBasis

    def __post_init__(self) -> None:
        within("the slope of the S-N curve", self.slope, 0.5, 50.0, "", 3.0)
        finite("log_a of the S-N curve", self.log_a, "", 11.764)
        within("the thickness exponent", self.thickness_exponent, 0.0, 1.0, "", 0.2)
        if self.reference_thickness is not None:
            positive("the reference thickness", self.reference_thickness, "m", 0.025)
        second = (self.break_cycles, self.slope_beyond, self.log_a_beyond)
        if all(value is None for value in second):
            return
        if self.break_cycles is None or self.slope_beyond is None or self.log_a_beyond is None:
            raise InputError("a second line of an S-N curve wants its break, slope and log_a; give all three or none")
        positive("the break of the S-N curve", self.break_cycles, "cycles", 1e6)
        within("the second slope of the S-N curve", self.slope_beyond, 0.5, 50.0, "", 5.0)
        finite("the second log_a of the S-N curve", self.log_a_beyond, "", 15.606)
        at = math.log10(self.break_cycles)
        step = (self.log_a - at) / self.slope - (self.log_a_beyond - at) / self.slope_beyond
        miss = abs(10.0**step - 1.0)
        if miss > _STEP:
            raise InputError(
                f"the two lines of the S-N curve '{self.key}' miss each other by {100.0 * miss:.0f} % in range at "
                "the break; check its constants"
            )

    def cycles_to_failure(self, stress_range: ArrayLike) -> Floats:
        """Cycles to failure, infinite at a range of 0.

        Parameters
        ----------
        stress_range : array_like
            >= 0 [Pa].
        """
        ranges = np.asarray(stress_range, dtype=np.float64)
        if not np.all(np.isfinite(ranges)) or np.any(ranges < 0.0):
            raise InputError("stress ranges must be finite and not negative [Pa]")
        with np.errstate(divide="ignore"):
            log_range = np.log10(ranges / MEGAPASCAL)
        log_cycles = self.log_a - self.slope * log_range
        if self.break_cycles is not None and self.slope_beyond is not None and self.log_a_beyond is not None:
            beyond = log_range < (self.log_a - math.log10(self.break_cycles)) / self.slope
            log_cycles = np.where(beyond, self.log_a_beyond - self.slope_beyond * log_range, log_cycles)
        found: Floats = np.power(10.0, np.minimum(log_cycles, 300.0))
        return np.where(ranges == 0.0, np.inf, found)

    def thickness_factor(self, thickness: float) -> float:
        """What a part of that thickness has its ranges multiplied by, 1 or more [-]."""
        positive("the part's thickness", thickness, "m", 0.02)
        if self.reference_thickness is None or thickness <= self.reference_thickness:
            return 1.0
        return math.pow(thickness / self.reference_thickness, self.thickness_exponent)


def sn_curve(key: str) -> SNCurve:
    """The packaged curve of that key, such as 'd_sea_protected'; InputError with the keys there are."""
    data = _data()
    keys = [name for name, row in data.items() if isinstance(row, dict)]
    if key not in keys:
        raise InputError(f"no S-N curve is called '{key}'; there are {', '.join(keys)}")
    row = data[key]
    status = row["status"] if row.get("break_cycles") is None else f"{row['status']}; {data['break_status']}"
    return SNCurve(
        key=key,
        detail=f"class {row['class']}",
        environment=row["environment"],
        slope=row["slope"],
        log_a=row["log_a"],
        break_cycles=row.get("break_cycles"),
        slope_beyond=row.get("slope_beyond"),
        log_a_beyond=row.get("log_a_beyond"),
        reference_thickness=data["reference_thickness"],
        thickness_exponent=row["thickness_exponent"],
        safety=safety_basis("fatigue", f"{data['source']}: class {row['class']}", data["edition"], status),
    )


def own_sn_curve(
    detail: str,
    environment: str,
    slope: float,
    log_a: float,
    source: str,
    *,
    break_cycles: float | None = None,
    slope_beyond: float | None = None,
    log_a_beyond: float | None = None,
) -> SNCurve:
    """A curve of the user's, such as of a laminate or a casting; arguments as `SNCurve`, with its source."""
    if not source.strip():
        raise InputError("an S-N curve of your own wants a source, e.g. 'laminate test 7'")
    return SNCurve(
        key="own",
        detail=detail,
        environment=environment,
        slope=slope,
        log_a=log_a,
        break_cycles=break_cycles,
        slope_beyond=slope_beyond,
        log_a_beyond=log_a_beyond,
        reference_thickness=None,
        thickness_exponent=0.0,
        safety=safety_basis("fatigue", f"stated by the user: {source}", "stated by the user", "user's own"),
    )


@cache
def _data() -> dict[str, Any]:
    return tomllib.loads(resources.files("racewright.strength").joinpath("data/sn_curves.toml").read_text("utf-8"))
