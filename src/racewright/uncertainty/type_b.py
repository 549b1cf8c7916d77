"""Inputs from what is known without repeated readings (GUM 4.3)."""

from __future__ import annotations

import math

from racewright.errors import InputError
from racewright.uncertainty.inputs import Input


def rectangular(name: str, value: float, half_width: float, *, source: str = "", unit: str = "") -> Input:
    """Anything within value +- half_width alike: u = a/sqrt(3) (GUM 4.3.7). Both in the quantity's SI unit."""
    return Input(
        name, value, _width(name, half_width) / math.sqrt(3.0), shape="rectangular", source=source, unit=unit
    )


def triangular(name: str, value: float, half_width: float, *, source: str = "", unit: str = "") -> Input:
    """Within value +- half_width, the middle likeliest: u = a/sqrt(6) (GUM 4.3.9). In the quantity's SI unit."""
    return Input(name, value, _width(name, half_width) / math.sqrt(6.0), shape="triangular", source=source, unit=unit)


def arcsine(name: str, value: float, half_width: float, *, source: str = "", unit: str = "") -> Input:
    """A cycle of amplitude half_width, its ends likeliest: u = a/sqrt(2) (JCGM 101 6.4.6). SI unit."""
    return Input(name, value, _width(name, half_width) / math.sqrt(2.0), shape="arcsine", source=source, unit=unit)


def exponential(name: str, mean: float, *, source: str = "", unit: str = "") -> Input:
    """Only a mean of something that cannot be negative is known: u = mean (JCGM 101 6.4.10). SI unit."""
    return Input(name, mean, _width(name, mean), shape="exponential", source=source, unit=unit)


def certificate(
    name: str,
    value: float,
    expanded: float,
    coverage_factor: float = 2.0,
    *,
    dof: float = math.inf,
    source: str = "",
    unit: str = "",
) -> Input:
    """An expanded uncertainty with its coverage factor, as certificates state it (GUM 4.3.3).

    Parameters
    ----------
    name : str
    value, expanded : float
        Estimate and expanded uncertainty U = k u [SI unit of the quantity].
    coverage_factor : float
        k, above 0; 2 is what certificates state by custom (common practice) [-].
    dof : float
        Degrees of freedom, where the certificate gives them [-].
    """
    if not (math.isfinite(coverage_factor) and coverage_factor > 0.0):
        raise InputError(f"its coverage factor is {coverage_factor}; it must be above 0, mostly 2", key=name)
    return Input(name, value, _width(name, expanded) / coverage_factor, dof, source=source, unit=unit)


def _width(name: str, width: float) -> float:
    if not (math.isfinite(width) and width >= 0.0):
        raise InputError(f"its width is {width}; it must be a finite number, 0 or more", key=name)
    return width
