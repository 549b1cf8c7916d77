"""Fatigue damage: the Miner sum over rainflow cycles of a series."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.remark import Remark
from racewright.safety import SafetyBasis, safety_basis
from racewright.safety_factors import SafetyFactor
from racewright.strength.cycles import Cycles, Ends, rainflow_cycles
from racewright.strength.door import positive
from racewright.strength.mean_stress import MEAN_STRESS_RULES, corrected_ranges
from racewright.strength.sn_curves import SNCurve
from racewright.tick import Tick, silent

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class FatigueDamage:
    """Damage of one series.

    Attributes
    ----------
    cycles : Cycles
        As counted [Pa].
    corrected_range : ndarray, shape (n,)
        With mean stress, thickness and the factor on ranges in it [Pa].
    cycles_to_failure : ndarray, shape (n,)
        At the corrected range [-].
    damage : float
        Miner sum of the series, no factor on damage [-].
    design_damage : float
        The same times the factor on damage [-].
    repeats : float or None
        How often the series may run until the design damage is 1; None without damage [-].
    life : float or None
        That many times the series' duration; None when no duration is given or nothing is damaged [s].
    curve : SNCurve
    mean_stress : str
        Name of the rule.
    remarks : tuple of Remark
    safety : SafetyBasis
    """

    cycles: Cycles
    corrected_range: Floats
    cycles_to_failure: Floats
    damage: float
    design_damage: float
    repeats: float | None
    life: float | None
    curve: SNCurve
    mean_stress: str
    remarks: tuple[Remark, ...]
    safety: SafetyBasis


def miner_sum(stress_range: ArrayLike, count: ArrayLike, curve: SNCurve) -> float:
    """Sum of counts over cycles to failure [-].

    Parameters
    ----------
    stress_range : array_like, shape (n,)
        >= 0 [Pa].
    count : array_like, shape (n,)
        Cycles at each range, >= 0 [-].
    curve : SNCurve
    """
    counts = np.asarray(count, dtype=np.float64)
    to_failure = curve.cycles_to_failure(stress_range)
    if counts.shape != to_failure.shape or not np.all(np.isfinite(counts)) or np.any(counts < 0.0):
        raise InputError("the counts must be finite, not negative, and one for each range")
    return float(np.sum(counts / to_failure))


def rainflow_damage(
    stress: ArrayLike,
    curve: SNCurve,
    *,
    mean_stress: str = "none",
    ultimate_strength: float | None = None,
    thickness: float | None = None,
    damage_factor: SafetyFactor | None = None,
    range_factor: SafetyFactor | None = None,
    duration: float | None = None,
    ends: Ends = "half",
    tick: Tick = silent,
) -> FatigueDamage:
    """Count a series of stress and sum its damage.

    Parameters
    ----------
    stress : array_like, shape (n,)
        Stress at the detail that the curve is for, two or more values [Pa].
    curve : SNCurve
    mean_stress : str
        A name of `mean_stress.MEAN_STRESS_RULES`; 'none' for welded details.
    ultimate_strength : float, optional
        For the rules that want it [Pa].
    thickness : float, optional
        Of the part, for the curve's thickness factor [m].
    damage_factor, range_factor : SafetyFactor, optional
        Rows of the group 'fatigue', on the Miner sum and on every range; without either a remark says so.
    duration : float, optional
        Of the series, > 0 [s].
    ends : {'half', 'repeated'}
        As `cycles.rainflow_cycles`.
    tick : Tick
    """
    on_damage, on_range = (_number(factor) for factor in (damage_factor, range_factor))
    cycles = rainflow_cycles(stress, ends=ends, tick=tick)
    scale = on_range * (1.0 if thickness is None else curve.thickness_factor(thickness))
    ranges = scale * corrected_ranges(cycles, mean_stress, ultimate_strength)
    to_failure = curve.cycles_to_failure(ranges)
    damage = float(np.sum(cycles.count / to_failure))
    design = on_damage * damage
    repeats = 1.0 / design if design > 0.0 and math.isfinite(1.0 / design) else None
    if duration is not None:
        positive("the duration of the series", duration, "s", 600.0)
    return FatigueDamage(
        cycles=cycles,
        corrected_range=ranges,
        cycles_to_failure=to_failure,
        damage=damage,
        design_damage=design,
        repeats=repeats,
        life=None if duration is None or repeats is None else repeats * duration,
        curve=curve,
        mean_stress=mean_stress,
        remarks=_remarks(cycles, curve, to_failure, mean_stress, damage_factor, range_factor),
        safety=_basis(curve, mean_stress, damage_factor, range_factor),
    )


def _number(factor: SafetyFactor | None) -> float:
    if factor is None:
        return 1.0
    if factor.group != "fatigue":
        raise InputError(f"'{factor.key}' is a factor for a {factor.group}; wanted one for fatigue")
    return factor.single()


def _basis(
    curve: SNCurve, rule: str, damage_factor: SafetyFactor | None, range_factor: SafetyFactor | None
) -> SafetyBasis:
    parts = [curve.safety, *(factor.safety for factor in (damage_factor, range_factor) if factor is not None)]
    told = "; ".join(part.basis for part in parts)
    return safety_basis(
        "fatigue",
        f"rainflow of ASTM E1049-85, Miner sum; {told}; mean stress: {MEAN_STRESS_RULES[rule]}",
        "; ".join(part.edition for part in parts),
        "; ".join(part.status for part in parts),
    )


def _remarks(
    cycles: Cycles,
    curve: SNCurve,
    to_failure: Floats,
    rule: str,
    damage_factor: SafetyFactor | None,
    range_factor: SafetyFactor | None,
) -> tuple[Remark, ...]:
    found: list[Remark] = []
    if damage_factor is None and range_factor is None:
        found.append(Remark("caution", "No safety factor stands on this damage.", "fatigue factor"))
    if cycles.count.size == 0:
        found.append(Remark("note", "The series is constant: nothing is counted.", "fatigue"))
    elif float(np.min(to_failure)) < 1e4:
        found.append(
            Remark(
                "warning",
                f"The largest range fails after {float(np.min(to_failure)):.0f} cycles: below about 1e4 the metal "
                "yields and S-N curves of stress do not hold.",
                "low-cycle fatigue",
            )
        )
    if "free corrosion" in curve.environment:
        found.append(
            Remark("caution", "Free corrosion has no endurance limit and pits grow: inspect.", "corrosion fatigue")
        )
    if rule != "none" and curve.detail.startswith("class "):
        found.append(
            Remark(
                "note",
                "Curves of welded classes hold for any mean stress; a correction on top counts it twice.",
                "mean stress",
            )
        )
    return tuple(found)
