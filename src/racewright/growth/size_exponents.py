"""Masses, loads and costs of another size, by exponents with their range."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Literal, get_args

from racewright.door import within
from racewright.errors import InputError

Kind = Literal["load", "mass", "cost", "other"]
Measure = Literal[
    "throat_diameter",
    "stream_speed",
    "flow_force",
    "flow_moment",
    "thrust",
    "torque",
    "rated_power",
]


@dataclass(frozen=True, slots=True)
class SizeExponent:
    """How one quantity grows: value ~ measure^exponent.

    Attributes
    ----------
    name : str
        E.g. 'duct mass'.
    kind : {'load', 'mass', 'cost', 'other'}
    over : str
        The measure; see `measures_of`.
    low, value, high : float
        low <= value <= high, -6 to 6; all equal for a closed form [-].
    status, source : str
        E.g. 'closed form', 'from memory', 'own choice'; from where, empty where it is not known.
    """

    name: str
    kind: Kind
    over: Measure
    low: float
    value: float
    high: float
    status: str
    source: str

    def __post_init__(self) -> None:
        if self.kind not in get_args(Kind):
            raise InputError(f"{self.name}: {self.kind!r} must be one of {', '.join(get_args(Kind))}", key="kind")
        if self.over not in get_args(Measure):
            raise InputError(f"{self.name}: {self.over!r} must be one of {', '.join(get_args(Measure))}", key="over")
        for end in (self.low, self.value, self.high):
            within(f"the exponent of {self.name}", end, -6.0, 6.0, "", 2.6)
        if not self.low <= self.value <= self.high:
            raise InputError(
                f"the exponents of {self.name} are {self.low:g}, {self.value:g}, {self.high:g}; wanted low, middle, "
                "high in this order"
            )
        if not (self.name.strip() and self.status.strip()):
            raise InputError(f"the exponent of {self.name!r} has no name or no status; give both")


@dataclass(frozen=True, slots=True)
class ScaledQuantity:
    """A quantity at another size.

    Attributes
    ----------
    exponent : SizeExponent
    measure_ratio : float
        The measure at the other size over that at the known one [-].
    low_factor, factor, high_factor : float
        low_factor <= factor <= high_factor; times the known value [-].
    """

    exponent: SizeExponent
    measure_ratio: float
    low_factor: float
    factor: float
    high_factor: float

    def of(self, known: float) -> tuple[float, float, float]:
        """Low, middle and high value at the other size from the known one, 0 or more [its unit]."""
        at = within(f"the known {self.exponent.name}", known, 0.0, 1e15, "", 100.0)
        return at * self.low_factor, at * self.factor, at * self.high_factor


def size_exponents(own: Iterable[SizeExponent] = ()) -> tuple[SizeExponent, ...]:
    """The packaged exponents, the user's in the place of those of the same name, and new ones after them.

    Parameters
    ----------
    own : iterable of SizeExponent

    Raises
    ------
    InputError
        Two of the user's have one name.
    """
    mine: dict[str, SizeExponent] = {}
    for one in own:
        if one.name in mine:
            raise InputError(f"two exponents are given for {one.name!r}; one is wanted")
        mine[one.name] = one
    kept = tuple(mine.pop(one.name, one) for one in _packaged())
    return (*kept, *mine.values())


def own_exponent(name: str, low: float, value: float, high: float, source: str) -> SizeExponent:
    """A user's exponent over throat diameter.

    Parameters
    ----------
    name : str
        Of a packaged row, which it replaces and whose kind it takes, or a new one of the kind 'other'; an underscore
        stands for a space.
    low, value, high : float
        As in `SizeExponent` [-].
    source : str
        May be empty, which is said.

    Raises
    ------
    InputError
        Exponents not finite, out of range or not in order.
    """
    told = name.replace("_", " ")
    kinds = {one.name: one.kind for one in _packaged()}
    status = "stated by the user" if source.strip() else "stated by the user, no source"
    return SizeExponent(told, kinds.get(told, "other"), "throat_diameter", low, value, high, status, source)


def scaled(exponent: SizeExponent, before: Mapping[str, float], after: Mapping[str, float]) -> ScaledQuantity:
    """What an exponent makes of two sizes.

    Parameters
    ----------
    exponent : SizeExponent
    before, after : mapping of str to float
        Measures of the known and of the other size, > 0; from `measures_of`.

    Raises
    ------
    InputError
        The measure is not there, not finite or not above 0.
    """
    for measures in (before, after):
        if exponent.over not in measures:
            raise InputError(f"{exponent.name} goes with {exponent.over}, which is not known here", key=exponent.over)
    first, second = (
        within(exponent.over, measures[exponent.over], 1e-12, 1e15, "", 1.0) for measures in (before, after)
    )
    ratio = second / first
    ends = sorted((ratio**exponent.low, ratio**exponent.high))
    return ScaledQuantity(exponent, ratio, ends[0], ratio**exponent.value, ends[1])


@cache
def _packaged() -> tuple[SizeExponent, ...]:
    text = resources.files("racewright.growth").joinpath("data/size_exponents.toml").read_text("utf-8")
    found = []
    for key, row in tomllib.loads(text).items():
        if isinstance(row, dict):
            low, value, high = (float(end) for end in row["exponent"])
            name = key.replace("_", " ")
            found.append(SizeExponent(name, row["kind"], row["over"], low, value, high, row["status"], row["source"]))
    return tuple(found)
