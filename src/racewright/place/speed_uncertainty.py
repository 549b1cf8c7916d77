"""How well the speed at the machine is known, by cause."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from racewright.errors import InputError
from racewright.place.guard import within
from racewright.place.reach import Reach, flow_at
from racewright.place.result import DurationCurve

_STEP = 0.01


@dataclass(frozen=True)
class SpeedCause:
    """One cause of doubt about the speed.

    Attributes
    ----------
    cause : str
    input_error : float
        Relative standard uncertainty of the input, 0 to 1 [-].
    sensitivity : float
        Relative change of speed per relative change of the input, -10 to 10 [-].
    """

    cause: str
    input_error: float
    sensitivity: float

    def __post_init__(self) -> None:
        within(f"the uncertainty from {self.cause}", self.input_error, 0.0, 1.0, "[-]")
        within(f"the sensitivity to {self.cause}", self.sensitivity, -10.0, 10.0, "[-]")

    @property
    def speed_error(self) -> float:
        """Relative standard uncertainty of speed from this cause [-]."""
        return self.input_error * abs(self.sensitivity)


def combined(causes: tuple[SpeedCause, ...]) -> float:
    """Relative standard uncertainty of speed, root of the squares of independent causes [-]."""
    return math.sqrt(math.fsum(cause.speed_error**2 for cause in causes))


@dataclass(frozen=True)
class RiverErrors:
    """Relative standard uncertainties of what the chain at a transect is built on, each 0 to 1.

    Attributes
    ----------
    discharge : float
        Of the record itself, transfer from another gauge included; default 0.05 (common practice, no source) [-].
    rating : float
        Of the mean relation, from `rating_band` or else 0.10 (common practice, no source) [-].
    area : float
        Of the wetted area, from survey and scour; default 0.05 (common practice, no source) [-].
    speed_factor : float or None
        Of the speed at the place over the section mean; None takes 0.05 where it is measured and 0.20 where it is
        estimated from depth (rules of this program, no source) [-].
    profile : float
        Of n in the exponent 1/n; default 0.25: fitted rivers scatter about 6 (rule of this program) [-].
    """

    discharge: float = 0.05
    rating: float = 0.10
    area: float = 0.05
    speed_factor: float | None = None
    profile: float = 0.25


def river_causes(
    reach: Reach, curve: DurationCurve, errors: RiverErrors, *, rated_here: bool = False
) -> tuple[SpeedCause, ...]:
    """Sensitivities of the speed at the machine, by small changes through the chain.

    Each is the mean over the duration curve weighted by speed cubed, so that it stands for the times that energy
    comes from.

    Parameters
    ----------
    reach : Reach
    curve : DurationCurve
        Of discharge [m3/s].
    errors : RiverErrors
    rated_here : bool
        True when the record was made from levels by this same rating: the level is then known and an error of the
        rating is one of discharge. False (default) when the discharge is known and the rating gives the level.

    Raises
    ------
    InputError
        When no part of the curve moves water past the machine.
    """
    flow, p = curve.value[curve.value > 0.0], curve.exceedance[curve.value > 0.0]
    if flow.size < 2:
        raise InputError("the duration curve holds no flowing water")
    speed = flow_at(reach, flow).speed
    weight = speed**3 * np.abs(np.gradient(p))
    if not float(weight.sum()) > 0.0:
        raise InputError("no water passes the machine at any flow of the duration curve")
    up, down = 1.0 + _STEP, 1.0 - _STEP

    def by(one: Reach, other: Reach, f: float = 1.0, g: float = 1.0) -> float:
        high, low = flow_at(one, flow * f).speed, flow_at(other, flow * g).speed
        wet = (high > 0.0) & (low > 0.0)
        change = np.log(np.where(wet, high, 1.0) / np.where(wet, low, 1.0)) / math.log(up / down)
        return float(np.average(change, weights=weight * wet))

    def rated(f: float) -> Reach:
        return replace(reach, rating=replace(reach.rating, coefficient=reach.rating.coefficient * f))

    with_level = by(rated(up), rated(down))
    factor = errors.speed_factor
    if factor is None:
        factor = 0.20 if reach.speed_factor is None else 0.05
    n = reach.profile_n
    profile = by(replace(reach, profile_n=min(20.0, n * up)), replace(reach, profile_n=max(2.0, n * down)))
    known = by(reach, reach, up, down)
    causes = (
        SpeedCause("discharge record", errors.discharge, 0.0 if rated_here else known),
        SpeedCause("rating", errors.rating, 1.0 if rated_here else with_level),
        SpeedCause("transect's area", errors.area, -1.0),
        SpeedCause("speed factor", factor, 1.0),
        SpeedCause("vertical profile", errors.profile, profile),
    )
    return tuple(cause for cause in causes if cause.sensitivity != 0.0)
