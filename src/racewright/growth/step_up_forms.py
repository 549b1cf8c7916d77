"""The named forms of step-up side by side: each is a check of the others and of the stage that is solved anew."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Literal

from racewright.door import within
from racewright.growth.step_up import SOURCE, step_up


@dataclass(frozen=True, slots=True)
class SizePair:
    """What a form of step-up is told of two like machines.

    Attributes
    ----------
    hydraulic_efficiency : float
        Of the first [-].
    reynolds, other_reynolds : float
        Throat diameter x tip speed over kinematic viscosity, of the first and the other [-].
    diameter_ratio : float
        Of the other over the first, 1e-3 to 1e3 [-].
    """

    hydraulic_efficiency: float
    reynolds: float
    other_reynolds: float
    diameter_ratio: float


@dataclass(frozen=True, slots=True)
class FormResult:
    """What one form makes of it.

    Attributes
    ----------
    name : str
    by : {'Reynolds number', 'diameter'}
        What it scales losses by. A form by diameter is right only at equal speed in equal water.
    hydraulic_efficiency, gain : float
        Of the other machine; that less the first's [-].
    source : str
    """

    name: str
    by: Literal["Reynolds number", "diameter"]
    hydraulic_efficiency: float
    gain: float
    source: str


def moody(pair: SizePair) -> float:
    """Moody's first form: losses fall with the fifth root of diameter [-]."""
    return 1.0 - (1.0 - pair.hydraulic_efficiency) / math.pow(pair.diameter_ratio, 0.2)


def hutton(pair: SizePair) -> float:
    """Hutton's form: 0.3 of the losses stay, 0.7 fall with the fifth root of Reynolds number [-]."""
    ratio = 0.3 + 0.7 * math.pow(pair.reynolds / pair.other_reynolds, 0.2)
    return 1.0 - (1.0 - pair.hydraulic_efficiency) * ratio


def _iec(share: float) -> Callable[[SizePair], float]:
    def form(pair: SizePair) -> float:
        found = step_up(pair.hydraulic_efficiency, pair.reynolds, pair.other_reynolds, scalable_share=share)
        return found.hydraulic_efficiency

    return form


STEP_UPS: Mapping[str, tuple[Literal["Reynolds number", "diameter"], Callable[[SizePair], float], str]] = {
    "IEC 60193, fixed blades": ("Reynolds number", _iec(0.7), SOURCE),
    "IEC 60193, adjusted blades": ("Reynolds number", _iec(0.8), SOURCE),
    "Hutton": ("Reynolds number", hutton, "Hutton (1954), form from memory, high confidence"),
    "Moody": ("diameter", moody, "Moody, first form, read in a hydraulics text"),
}
"""Every form by name: what it scales by, the function, the source."""


def step_up_forms(pair: SizePair) -> tuple[FormResult, ...]:
    """All forms, in the order of `STEP_UPS`.

    Parameters
    ----------
    pair : SizePair

    Raises
    ------
    InputError
        A value is not finite or outside its range; see `step_up`.
    """
    within("diameter_ratio", pair.diameter_ratio, 1e-3, 1e3, "", 10.0)
    found = []
    for name, (by, form, source) in STEP_UPS.items():
        reached = form(pair)
        found.append(FormResult(name, by, reached, reached - pair.hydraulic_efficiency, source))
    return tuple(found)
