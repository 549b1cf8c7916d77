"""Published strength, mass, stiffness and drag of chain, wire and fibre rope."""

from __future__ import annotations

import math
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any, Literal

import numpy as np

from racewright.errors import InputError
from racewright.holding.line_segment import GIVEN_STRENGTH, Segment
from racewright.machine.drive_checks import number
from racewright.safety import SafetyBasis

Kind = Literal[
    "studless chain",
    "stud chain",
    "six-strand wire",
    "spiral wire",
    "sheathed spiral wire",
    "polyester",
    "nylon",
    "HMPE",
]
KINDS: tuple[Kind, ...] = (
    "studless chain",
    "stud chain",
    "six-strand wire",
    "spiral wire",
    "sheathed spiral wire",
    "polyester",
    "nylon",
    "HMPE",
)


@dataclass(frozen=True, slots=True)
class Strength:
    """Breaking strength of a new line and what is left of it in water with spliced ends.

    Attributes
    ----------
    new : float
        As tables print it, dry and unspliced where they do [N].
    wet, splice : float
        Factors on it [-].
    value : float
        new x wet x splice [N].
    safety : SafetyBasis
        Source, edition and status of the table, what the reader must be told.
    """

    new: float
    wet: float
    splice: float
    value: float
    safety: SafetyBasis


def breaking_strength(kind: Kind, diameter: float, grade: str = "R3", *, spliced: bool = True) -> Strength:
    """Breaking strength of a line of the packaged tables.

    Parameters
    ----------
    kind : Kind
    diameter : float
        Nominal, within the table [m].
    grade : {'R3', 'R3S', 'R4', 'R5'}
        Of chain; not read for other kinds.
    spliced : bool
        Count the splice of fibre rope, default: every end has one.

    Raises
    ------
    InputError
        For a kind or grade that is not there, or a diameter outside the table.
    """
    data, d = _packaged(), _millimetres(kind, diameter)
    row = _row(kind)
    wet = splice = 1.0
    if kind.endswith("chain"):
        new = _grade(data["chain"]["strength"], grade) * d**2 * (44.0 - 0.08 * d)
        row = data["chain"]
    elif "strength_table" in row:
        new = _power_law(d, row["strength_diameter"], row["strength_table"])
        wet, splice = row["wet"], row["splice"] if spliced else 1.0
    else:
        new = row["strength"] * d**2
    value = 1e3 * new * wet * splice
    told = SafetyBasis(row["strength_source"], row["strength_edition"], row["strength_status"], data["caution"])
    return Strength(1e3 * new, wet, splice, value, told)


def proof_load(diameter: float, grade: str = "R3") -> float:
    """Proof load of chain [N]; only R3 is in the table."""
    d = _millimetres("studless chain", diameter)
    return 1e3 * float(_grade(_packaged()["chain"]["proof"], grade)) * d**2 * (44.0 - 0.08 * d)


def segment(
    kind: Kind,
    length: float,
    diameter: float,
    grade: str = "R3",
    *,
    spliced: bool = True,
    storm: bool = False,
    strength: float | None = None,
    mass: float | None = None,
    stiffness: float | None = None,
    drag_coefficient: float | None = None,
) -> Segment:
    """A segment from the packaged tables; values that are given replace the table's.

    Parameters
    ----------
    kind : Kind
    length : float
        Unstretched [m].
    diameter : float
        Nominal: bar of chain, rope of wire and fibre; within the table [m].
    grade : {'R3', 'R3S', 'R4', 'R5'}
        Of chain.
    spliced : bool
        Count the splice of fibre rope in its strength.
    storm : bool
        Fibre rope that is cycled about a mean load, stiffer than under slow change (default: slow).
    strength, mass, stiffness, drag_coefficient : float, optional
        In place of the table's [N], [kg/m], [N], [-].
    """
    d = _millimetres(kind, diameter)
    borne = breaking_strength(kind, diameter, grade, spliced=spliced)
    weight, density, mass_source = _mass(kind, d)
    low, value, high, stretch_source = _stretch(kind, d, grade, borne.new, storm)
    drag, drag_source = _drag(kind)
    used = weight if mass is None else mass
    sources = {
        "strength": borne.safety.basis if strength is None else "given by the user",
        "mass": mass_source if mass is None else "given by the user",
        "stiffness": stretch_source if stiffness is None else "given by the user",
        "drag": drag_source if drag_coefficient is None else "given by the user",
    }
    name = f"{kind} {grade}" if kind.endswith("chain") else kind
    return Segment(
        material=f"{name} {d:g} mm",
        length=length,
        diameter=diameter,
        mass=used,
        displaced_area=weight / density,
        stiffness=value if stiffness is None else stiffness,
        strength=borne.value if strength is None else strength,
        drag_coefficient=drag if drag_coefficient is None else drag_coefficient,
        basis=tuple(f"{what}: {source}" for what, source in sources.items()),
        safety=borne.safety if strength is None else GIVEN_STRENGTH,
        stiffness_low=low if stiffness is None else 0.0,
        stiffness_high=high if stiffness is None else 0.0,
    )


def diameter_range(kind: Kind) -> tuple[float, float]:
    """Least and greatest nominal diameter of the table [m]."""
    row = _packaged()["chain"] if kind.endswith("chain") else _row(kind)
    ends = row["diameter"] if "diameter" in row else row["strength_diameter"]
    return 1e-3 * float(ends[0]), 1e-3 * float(ends[-1])


def _mass(kind: Kind, d: float) -> tuple[float, float, str]:
    """Mass per length [kg/m], density of the stuff [kg/m3], source."""
    data, row = _packaged(), _row(kind)
    if "mass_table" in row:
        return _power_law(d, row["mass_diameter"], row["mass_table"]), row["density"], row["mass_source"]
    source = (data["chain"] if kind.endswith("chain") else row)["mass_source"]
    return row["mass"] * d**2, data["steel"]["density"], source


def _stretch(kind: Kind, d: float, grade: str, strength: float, storm: bool) -> tuple[float, float, float, str]:
    """Low, value and high EA [N], source."""
    row = _row(kind)
    if "stiffness" in row:
        low, value, high = (strength * factor for factor in row["storm_stiffness" if storm else "stiffness"])
        return low, value, high, row["stiffness_source"]
    if kind.endswith("chain"):
        a, b = _grade(row["modulus"], grade)
        stiff = (a - b * d) * 1e10 * 0.5 * math.pi * (1e-3 * d) ** 2
    else:
        stiff = row["modulus"] * 0.25 * math.pi * (1e-3 * d) ** 2
    return stiff, stiff, stiff, row["modulus_source"]


def _drag(kind: Kind) -> tuple[float, str]:
    row = _row(kind)
    return row["drag"], (_packaged()["chain"] if kind.endswith("chain") else row)["drag_source"]


def _row(kind: Kind) -> dict[str, Any]:
    if kind not in KINDS:
        raise InputError(f"No kind of line is called '{kind}'; wanted one of {', '.join(KINDS)}.")
    data = _packaged()
    found: dict[str, Any] = data["chain"][kind.split()[0]] if kind.endswith("chain") else data[kind]
    return found


def _grade(table: dict[str, Any], grade: str) -> Any:
    if grade not in table:
        raise InputError(f"No figures for chain of grade '{grade}'; wanted one of {', '.join(table)}.")
    return table[grade]


def _millimetres(kind: Kind, diameter: float) -> float:
    _row(kind)
    low, high = diameter_range(kind)
    return 1e3 * number(f"The diameter of {kind}", diameter, low - 1e-9, high + 1e-9, "m")


def _power_law(d: float, diameters: list[float], values: list[float]) -> float:
    """Table value over diameter squared, interpolated in the diameter; held beyond the ends."""
    at = np.asarray(diameters, dtype=np.float64)
    return float(np.interp(d, at, np.asarray(values) / at**2)) * d**2


@cache
def _packaged() -> dict[str, Any]:
    return tomllib.loads(resources.files("racewright.holding").joinpath("data/lines.toml").read_text("utf-8"))
