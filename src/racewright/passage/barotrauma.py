"""Death by decompression from acclimation and nadir pressure."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.door import within
from racewright.errors import InputError
from racewright.passage.dose import UNKNOWN, Chance
from racewright.passage.species import FishClass
from racewright.safety import SafetyBasis, safety_basis

NADIR_RULES = (
    (0.6, "nadir over acclimation pressure 0.6 or more: Cada and others (1997), from memory, 75 %"),
    (0.7, "nadir over acclimation pressure 0.7 or more: Boys and others (2016), from memory, 75 %"),
)
"""Published aims, laxer first."""


@dataclass(frozen=True, slots=True)
class Decompression:
    """What a fall of pressure does to one class.

    Attributes
    ----------
    acclimation_pressure, nadir_pressure : float
        Absolute [Pa].
    ratio : float
        Acclimation over nadir [-].
    death : Chance
    rules_met : tuple of bool
        By `NADIR_RULES`, laxer first.
    safety : SafetyBasis
    """

    acclimation_pressure: float
    nadir_pressure: float
    ratio: float
    death: Chance
    rules_met: tuple[bool, ...]
    safety: SafetyBasis


def decompression(fish: FishClass, acclimation_pressure: float, nadir_pressure: float) -> Decompression:
    """Share that dies of the fall from acclimation to nadir pressure.

    Parameters
    ----------
    fish : FishClass
    acclimation_pressure, nadir_pressure : float
        Absolute, that is with the atmosphere's, above 0, up to 1e8 [Pa].

    Raises
    ------
    InputError
        A pressure is not finite, or 0 or less: it may be one above the atmosphere's.
    """
    for name, value in (("acclimation_pressure", acclimation_pressure), ("nadir_pressure", nadir_pressure)):
        if not (math.isfinite(value) and 0.0 < value <= 1e8):
            raise InputError(
                f"{name} is {value!r} Pa; wanted an absolute pressure above 0, with the atmosphere's, e.g. 101325",
                key=name,
            )
    ratio = acclimation_pressure / nadir_pressure
    within("ratio", ratio, 1e-6, 1e3, "", 1.5)
    response = fish.pressure
    death = UNKNOWN if response is None else response.at(ratio)
    basis = "no response known" if response is None else response.source
    status = "not known" if response is None else response.status
    return Decompression(
        float(acclimation_pressure),
        float(nadir_pressure),
        ratio,
        death,
        tuple(1.0 / ratio >= least for least, _source in NADIR_RULES),
        safety_basis("fish", f"{fish.title}: {basis}", fish.safety.edition, status),
    )
