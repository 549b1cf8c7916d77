"""Help with the layout: line sizes for wanted factors, and how stiff they leave the machine."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import get_args

import numpy as np
from numpy.typing import ArrayLike

from racewright.errors import InputError
from racewright.holding.checked import vector
from racewright.holding.line_table import KINDS, Kind, breaking_strength, diameter_range, segment
from racewright.holding.safety import TENSION_CAUTION, StrengthFactor
from racewright.holding.statics_result import Equilibrium
from racewright.holding.statics_worst import WorstLine
from racewright.machine.drive_checks import number
from racewright.safety import SafetyBasis

_STEP = 1e-3
"""Diameters are proposed in whole millimetres [m]."""


@dataclass(frozen=True, slots=True)
class LineChoice:
    """A line that bears a slow tension with a wanted factor.

    Attributes
    ----------
    kind, grade : str
        Grade '' for all but chain.
    diameter : float
        Next whole millimetre [m].
    strength, wanted_strength, new_strength : float
        As used (wet, spliced), factor x tension, new as ordered [N].
    utilisation : float
        Factor x tension/strength, at most 1 [-].
    mass, submerged_weight : float
        Of the whole line, in air [kg] and in water [N].
    stiffness : float
        EA [N].
    stretch : float
        Under the tension [m].
    stored_energy : float
        tension^2 length/(2 EA); it is let go when the line parts. Soft lines store more [J].
    stream_stiffness, stream_stiffness_low, stream_stiffness_high : float
        Of this one straight line at its fairlead along the stream, with the range of EA. Stiffer lines move less and
        take a slow load sooner; what a blow makes of it is another computation [N/m].
    safety : SafetyBasis
    """

    kind: str
    grade: str
    diameter: float
    strength: float
    wanted_strength: float
    new_strength: float
    utilisation: float
    mass: float
    submerged_weight: float
    stiffness: float
    stretch: float
    stored_energy: float
    stream_stiffness: float
    stream_stiffness_low: float
    stream_stiffness_high: float
    safety: SafetyBasis


def line_choices(
    tension: float,
    factor: StrengthFactor,
    length: float,
    *,
    along_stream: float = 1.0,
    kinds: tuple[Kind, ...] = KINDS,
    grade: str = "R3",
    density: float = 1000.0,
    gravity: float = 9.80665,
) -> tuple[LineChoice, ...]:
    """The least size of each kind of line for a tension and a factor; kinds whose tables end too soon are left out.

    Parameters
    ----------
    tension : float
        Slow tension, > 0 [N].
    factor : StrengthFactor
    length : float
        Of the line, > 0 [m].
    along_stream : float
        Cosine between the line and the stream, -1 to 1, default 1 [-].
    kinds : tuple of Kind
        Default: all in the tables.
    grade : {'R3', 'R3S', 'R4', 'R5'}
        Of chain.
    density, gravity : float
        Of the water [kg/m3], [m/s2].
    """
    number("The tension", tension, 1e-3, 1e10, "N")
    number("The length", length, 1e-3, 1e5, "m")
    number("The cosine to the stream", along_stream, -1.0, 1.0)
    unknown = [k for k in kinds if k not in get_args(Kind)]
    if unknown:
        raise InputError(f"No kind of line is called '{unknown[0]}'; wanted some of {', '.join(KINDS)}.")
    found = []
    for kind in kinds:
        diameter = _least(kind, grade, factor.factor * tension)
        if diameter is not None:
            found.append(
                _choice(kind, grade, diameter, (tension, length, along_stream**2), factor, (density, gravity))
            )
    return tuple(found)


def _least(kind: Kind, grade: str, wanted: float) -> float | None:
    """Least whole-millimetre diameter that is strong enough, None when the table ends first."""
    low, high = diameter_range(kind)
    for count in range(math.ceil(round(low / _STEP, 6)), math.floor(round(high / _STEP, 6)) + 1):
        if breaking_strength(kind, count * _STEP, grade).value >= wanted:
            return count * _STEP
    return None


def _choice(
    kind: Kind,
    grade: str,
    diameter: float,
    case: tuple[float, float, float],
    factor: StrengthFactor,
    water: tuple[float, float],
) -> LineChoice:
    tension, length, square = case
    used = segment(kind, length, diameter, grade)
    strength = breaking_strength(kind, diameter, grade)
    low, value, high = (
        ea / length * square + tension / length * (1.0 - square)
        for ea in (used.stiffness_low, used.stiffness, used.stiffness_high)
    )
    table = strength.safety
    return LineChoice(
        kind=kind,
        grade=grade if kind.endswith("chain") else "",
        diameter=diameter,
        strength=strength.value,
        wanted_strength=factor.factor * tension,
        new_strength=strength.new,
        utilisation=factor.factor * tension / strength.value,
        mass=used.mass * length,
        submerged_weight=used.submerged_weight(*water) * length,
        stiffness=used.stiffness,
        stretch=tension * length / used.stiffness,
        stored_energy=tension**2 * length / (2.0 * used.stiffness),
        stream_stiffness=value,
        stream_stiffness_low=low,
        stream_stiffness_high=high,
        safety=SafetyBasis(
            f"{table.basis}; factor '{factor.name}' of {factor.source}",
            f"{table.edition}; factor: {factor.edition}",
            f"strength {table.status}; factor as its source says",
            f"{TENSION_CAUTION} {table.caution}",
        ),
    )


def wanted_strength(worst: tuple[WorstLine, ...]) -> float:
    """Greatest factor x tension of a table of worst lines: what one size for all lines must bear [N]."""
    found = [u.wanted_strength for line in worst for u in line.utilisations]
    if not found:
        raise InputError("The worst lines carry no factors; give strength factors to `worst_lines`.")
    return max(found)


def stiffness_at(found: Equilibrium, point: ArrayLike, direction: ArrayLike) -> float:
    """Stiffness of the held machine against a slow push at a point: 1/(J K^-1 J'), body free to turn [N/m].

    Parameters
    ----------
    found : Equilibrium
        Settled.
    point : array_like, shape (3,)
        From the body's origin, earth axes [m].
    direction : array_like, shape (3,)
        Of the push, earth axes, not zero [-].
    """
    if not found.settled:
        raise InputError("The equilibrium is not settled; its stiffness means nothing.")
    way = np.array(vector("The direction", direction, "-"))
    if not np.any(way != 0.0):
        raise InputError("The direction of the push is zero.")
    way = way / np.linalg.norm(way)
    push = np.concatenate([way, np.cross(vector("The point", point), way)])
    return 1.0 / float(push @ np.linalg.solve(found.stiffness, push))
