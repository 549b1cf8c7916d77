"""Ranges made worse by a mean stress in tension, by named rules."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError, NoAnswerError
from racewright.strength.cycles import Cycles
from racewright.strength.door import positive

Floats = NDArray[np.float64]

MEAN_STRESS_RULES: dict[str, str] = {
    "none": "no correction: for welded details, whose S-N curves hold for tension as high as yield",
    "goodman": "range / (1 - mean / ultimate strength); Goodman (1899), textbook form",
    "gerber": "range / (1 - (mean / ultimate strength)^2); Gerber (1874), textbook form; tough metals only",
    "smith_watson_topper": "2 sqrt(largest stress x amplitude); Smith, Watson and Topper (1970)",
}
"""Rules by name. A mean in compression is never credited."""


def corrected_ranges(cycles: Cycles, rule: str, ultimate_strength: float | None = None) -> Floats:
    """Ranges about a mean of 0 that do the same damage [Pa].

    Parameters
    ----------
    cycles : Cycles
        In Pa.
    rule : str
        A name of `MEAN_STRESS_RULES`.
    ultimate_strength : float, optional
        Wanted by 'goodman' and 'gerber', > 0 [Pa].

    Raises
    ------
    NoAnswerError
        A mean that reaches the ultimate strength: the part breaks at once.
    """
    if rule not in MEAN_STRESS_RULES:
        raise InputError(f"no mean-stress rule is called '{rule}'; there are {', '.join(MEAN_STRESS_RULES)}")
    mean = np.maximum(cycles.mean, 0.0)
    if rule == "none":
        return cycles.stress_range.copy()
    if rule == "smith_watson_topper":
        amplitude = 0.5 * cycles.stress_range
        return 2.0 * np.sqrt((mean + amplitude) * amplitude)
    if ultimate_strength is None:
        raise InputError(f"the mean-stress rule '{rule}' wants the ultimate strength in Pa")
    share = mean / positive("the ultimate strength", ultimate_strength, "Pa", 470e6)
    if np.any(share >= 1.0):
        raise NoAnswerError(
            f"a mean stress of {float(mean.max()) / 1e6:.1f} MPa reaches the ultimate strength of "
            f"{ultimate_strength / 1e6:.1f} MPa: the part breaks at its first load; no fatigue life is to be had"
        )
    loss = share if rule == "goodman" else share**2
    worse: Floats = cycles.stress_range / (1.0 - loss)
    return worse
