"""Shapes of a speed-duration curve: speed at an exceedance over the median speed."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Protocol

import numpy as np

from racewright.errors import InputError
from racewright.place.guard import within
from racewright.place.result import DurationCurve, Floats

STATION_EXPONENT = 0.34
"""Speed grows as discharge to this power at a station, a mean of many (Leopold & Maddock 1953, from memory) [-]."""


class Shape(Protocol):
    """A speed-duration curve without its scale."""

    @property
    def basis(self) -> str:
        """Where the shape comes from, in words."""

    def ratio(self, exceedance: Floats) -> Floats:
        """Speed over median speed, for exceedances strictly between 0 and 1 [-]."""

    def ends(self) -> tuple[Shape, Shape]:
        """The same shape, one standard error flatter and one steeper."""


@dataclass(frozen=True)
class FlowShape:
    """Speed as discharge of a reference gauge to a power.

    Attributes
    ----------
    curve : DurationCurve
        Of the reference gauge's discharge; beyond its ranks the end values hold [m3/s].
    exponent : float
        0.05 to 1, default `STATION_EXPONENT` [-].
    exponent_error : float
        Standard, 0 to 0.3, default 0.1: stations differ that much (from memory) [-].
    """

    curve: DurationCurve
    exponent: float = STATION_EXPONENT
    exponent_error: float = 0.1

    def __post_init__(self) -> None:
        within("the exponent of speed on discharge", self.exponent, 0.01, 1.5, "[-]")
        within("the exponent's standard error", self.exponent_error, 0.0, 0.3, "[-]")
        if not float(np.interp(0.5, self.curve.exceedance, self.curve.value)) > 0.0:
            raise InputError("the reference gauge's median discharge is not above 0 m3/s, so it gives no shape")

    @property
    def basis(self) -> str:
        """Where the shape comes from, in words."""
        return f"a reference gauge's discharge to the power {self.exponent:g}"

    def ratio(self, exceedance: Floats) -> Floats:
        """Speed over median speed [-]."""
        flow, median = (
            np.interp(p, self.curve.exceedance, self.curve.value) for p in (exceedance, np.full_like(exceedance, 0.5))
        )
        ratio: Floats = (flow / median) ** self.exponent
        return ratio

    def ends(self) -> tuple[FlowShape, FlowShape]:
        """One standard error flatter (exponent not below 0.01) and steeper."""
        low = max(0.01, self.exponent - self.exponent_error)
        return replace(self, exponent=low), replace(self, exponent=self.exponent + self.exponent_error)


@dataclass(frozen=True)
class WeibullShape:
    """A two-parameter distribution of speed: exceedance exp(-(speed / scale)^shape).

    Attributes
    ----------
    shape : float
        1 to 12; 2 is very uneven, 4 and more an even river [-].
    shape_error : float
        Standard, over the shape, 0 to 0.5, default 0.25 (rule of this program) [-].
    """

    shape: float
    shape_error: float = 0.25

    def __post_init__(self) -> None:
        within("the shape of the speed distribution", self.shape, 0.5, 24.0, "[-]")
        within("the shape's relative standard error", self.shape_error, 0.0, 0.5, "[-]")

    @property
    def basis(self) -> str:
        """Where the shape comes from, in words."""
        return f"a stated two-parameter (Weibull) distribution of shape {self.shape:g}"

    def ratio(self, exceedance: Floats) -> Floats:
        """Speed over median speed [-]."""
        ratio: Floats = (-np.log(exceedance) / math.log(2.0)) ** (1.0 / self.shape)
        return ratio

    def ends(self) -> tuple[WeibullShape, WeibullShape]:
        """One standard error flatter and steeper."""
        f = 1.0 + self.shape_error
        return replace(self, shape=min(24.0, self.shape * f)), replace(self, shape=max(0.5, self.shape / f))
