"""Materials: typical minimum strengths, editable, each with its status."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Any, Literal, get_args

from racewright.errors import InputError, NoAnswerError
from racewright.safety import SafetyBasis, safety_basis

Group = Literal["steel", "bronze", "aluminium", "polymer", "composite"]
StrengthKind = Literal["yield", "ultimate"]

_TEXTS = ("title", "group", "sea_water", "status")
_NUMBERS = ("density", "elasticity", "poisson", "fatigue_cycles")
_ENDS = ("yield_strength", "ultimate_strength", "wet_share", "fatigue_amplitude")


@dataclass(frozen=True, slots=True)
class Material:
    """One material. Ranges are (low, high), () when not known; checks use the low end.

    Attributes
    ----------
    name, title : str
    group : {'steel', 'bronze', 'aluminium', 'polymer', 'composite'}
    density : float
        [kg/m3]
    elasticity : float
        [Pa]
    poisson : float
        [-]
    yield_strength, ultimate_strength : tuple of float
        [Pa]
    wet_share : tuple of float
        Share of the dry strength that stays in water [-].
    fatigue_amplitude : tuple of float
        Stress amplitude borne for `fatigue_cycles` in sea water [Pa].
    fatigue_cycles : float or None
        [-]
    sea_water : str
        What water does to it.
    replaces : str
        What an edited material stood at before, '' when packaged.
    safety : SafetyBasis
    """

    name: str
    title: str
    group: Group
    density: float
    elasticity: float
    poisson: float
    yield_strength: tuple[float, ...]
    ultimate_strength: tuple[float, ...]
    wet_share: tuple[float, ...]
    fatigue_amplitude: tuple[float, ...]
    fatigue_cycles: float | None
    sea_water: str
    replaces: str
    safety: SafetyBasis

    def strength(self, kind: StrengthKind) -> float:
        """Low end of yield or ultimate strength, times the low wet share where there is one [Pa].

        Raises
        ------
        NoAnswerError
            The material has none of that kind.
        """
        ends = self.yield_strength if kind == "yield" else self.ultimate_strength
        if not ends:
            other = "ultimate" if kind == "yield" else "yield"
            raise NoAnswerError(
                f"{self.title} has no {kind} strength in the table; ask for {other}, or state your own"
            )
        return ends[0] * (self.wet_share[0] if self.wet_share else 1.0)


def materials(edits: Mapping[str, Mapping[str, Any]] | None = None) -> Mapping[str, Material]:
    """The table by name, with the user's edits laid over it.

    Parameters
    ----------
    edits : mapping of mappings, optional
        By name: fields to change with `source`, such as a certificate's number; a strength is one number or a pair
        low, high. A new name wants `title`, `group`, `density`, `elasticity`, `poisson` and a strength.

    Raises
    ------
    InputError
        An unknown or lacking field, a number that is not finite and above 0, no source.
    """
    table = {name: _material(name, row, row["status"], "") for name, row in _rows().items()}
    for name, edit in (edits or {}).items():
        table[name] = _edited(name, edit)
    return MappingProxyType(table)


def material(name: str, table: Mapping[str, Material] | None = None) -> Material:
    """The material of that name; InputError with the names there are."""
    rows = materials() if table is None else table
    if name not in rows:
        raise InputError(f"no material is called '{name}'; there are {', '.join(rows)}")
    return rows[name]


@cache
def _data() -> dict[str, Any]:
    return tomllib.loads(resources.files("racewright.strength").joinpath("data/materials.toml").read_text("utf-8"))


def _rows() -> dict[str, dict[str, Any]]:
    return {name: row for name, row in _data().items() if isinstance(row, dict)}


def _edited(name: str, edit: Mapping[str, Any]) -> Material:
    source = edit.get("source")
    if not (isinstance(source, str) and source.strip()):
        raise InputError(f"the edited material '{name}' has no source; say who states it, e.g. 'certificate 123'")
    unknown = [key for key in edit if key not in (*_TEXTS, *_NUMBERS, *_ENDS, "source")]
    if unknown:
        raise InputError(f"the edited material '{name}' has no field '{unknown[0]}'")
    before = _rows().get(name)
    row = {**(before or {"sea_water": ""}), **edit}
    lacking = [key for key in ("title", "group", "density", "elasticity", "poisson") if key not in row]
    if lacking or not (row.get("yield_strength") or row.get("ultimate_strength")):
        raise InputError(f"the new material '{name}' lacks {', '.join(lacking) or 'a strength'}")
    if row["group"] not in get_args(Group):
        raise InputError(f"the material '{name}' wants a group of {', '.join(get_args(Group))}")
    for key in (*_NUMBERS, *_ENDS):
        for value in _ends(row.get(key)):
            if not (isinstance(value, int | float) and math.isfinite(value) and value > 0.0):
                raise InputError(f"{key} of the material '{name}' is {value!r}; wanted a finite number above 0")
        if list(_ends(row.get(key))) != sorted(_ends(row.get(key))) or len(_ends(row.get(key))) > 2:
            raise InputError(f"{key} of the material '{name}' wants one number or low, high")
    if not row["poisson"] <= 0.5 or any(end > 1.0 for end in _ends(row.get("wet_share"))):
        raise InputError(f"the material '{name}' wants Poisson's ratio up to 0.5 and wet shares up to 1")
    return _material(name, row, f"user's own: {source}", "" if before is None else _told(before))


def _ends(value: Any) -> tuple[Any, ...]:
    if value is None:
        return ()
    return tuple(value) if isinstance(value, list | tuple) else (value,)


def _told(row: Mapping[str, Any]) -> str:
    return ", ".join(f"{key} {'-'.join(f'{end:g}' for end in _ends(row[key]))}" for key in _ENDS if key in row)


def _material(name: str, row: Mapping[str, Any], status: str, replaces: str) -> Material:
    low_high = {key: tuple(float(end) for end in _ends(row.get(key))) for key in _ENDS}
    basis = f"{row['title']}; {_data()['note']}"
    if replaces:
        basis = f"{row['title']}, stated by the user in place of {replaces}"
    cycles = row.get("fatigue_cycles")
    return Material(
        name=name,
        title=row["title"],
        group=row["group"],
        density=float(row["density"]),
        elasticity=float(row["elasticity"]),
        poisson=float(row["poisson"]),
        yield_strength=low_high["yield_strength"],
        ultimate_strength=low_high["ultimate_strength"],
        wet_share=low_high["wet_share"],
        fatigue_amplitude=low_high["fatigue_amplitude"],
        fatigue_cycles=None if cycles is None else float(cycles),
        sea_water=row["sea_water"],
        replaces=replaces,
        safety=safety_basis("structure", basis, _data()["edition"], status),
    )
