"""Strength that a load asks for under one safety factor."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.errors import InputError, NoAnswerError
from racewright.safety import SafetyBasis
from racewright.safety_factors import SafetyFactor


@dataclass(frozen=True, slots=True)
class RequiredStrength:
    """Strength that a part must have.

    Attributes
    ----------
    load : float
        Mean and dynamic part together, no factor on it [N].
    factored_load : float
        The same with the factors on it [N].
    strength : float
        Factored load over the share of the strength that counts, such as a line's break strength when new and
        dry [N].
    factor : SafetyFactor
    safety : SafetyBasis
    """

    load: float
    factored_load: float
    strength: float
    factor: SafetyFactor
    safety: SafetyBasis


def required_strength(factor: SafetyFactor, mean_load: float, dynamic_load: float = 0.0) -> RequiredStrength:
    """(factor x mean + dynamic factor x dynamic) / share.

    Parameters
    ----------
    factor : SafetyFactor
    mean_load, dynamic_load : float
        >= 0; the dynamic part stands above the mean [N].

    Raises
    ------
    InputError
        A load that is negative or not finite.
    NoAnswerError
        The standard gives no factor.

    Examples
    --------
    >>> from racewright.safety_factors import safety_factor
    >>> round(required_strength(safety_factor("dnv_uls_class_1"), 5000.0, 10000.0).strength)
    21579
    """
    for name, load in (("mean", mean_load), ("dynamic", dynamic_load)):
        if not (math.isfinite(load) and load >= 0.0):
            raise InputError(f"the {name} load is {load!r} N; wanted a finite number, 0 or more, e.g. 5000")
    if factor.factor is None:
        raise NoAnswerError(f"{factor.standard} gives no factor for {factor.item}: {factor.conditions}")
    on_dynamic = factor.factor if factor.dynamic_factor is None else factor.dynamic_factor
    factored = factor.factor * mean_load + on_dynamic * dynamic_load
    return RequiredStrength(mean_load + dynamic_load, factored, factored / factor.share, factor, factor.safety)
