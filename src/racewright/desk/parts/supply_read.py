"""Money out of a page's data: its keys end with the currency, which is a label of the scheme."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from racewright.cli.encode import suffix
from racewright.dossier import format as fmt

QUANTILES = ("p10", "p50", "p90")


def money(told: Mapping[str, Any], name: str, currency: str, per: str = "") -> Any:
    """The value of a field that is counted in money.

    Parameters
    ----------
    told : mapping
        A dataclass of the ledger as the page's data have it.
    name : str
        Of the field.
    currency : str
        Three-letter label.
    per : str
        The rest of its unit, like '/m3'.

    Raises
    ------
    KeyError
        No such field.
    """
    for label in (currency, "currency"):
        key = name + suffix(f"{label}{per}")
        if key in told:
            return told[key]
    raise KeyError(f"{name} in {currency}{per}")


def range_of(band: Mapping[str, float], scales: tuple[fmt.Scale, ...], digits: int = 3) -> str:
    """P10 to P90 in one unit, rounded by the greater of the two."""
    low, high = band["p10"], band["p90"]
    greatest = max(abs(low), abs(high))
    scale = fmt.pick(scales, greatest)
    places = fmt.decimals_for(greatest / scale.factor, digits)
    ends = [fmt.number(_cut(end / scale.factor, digits), places) for end in (low, high)]
    return fmt.join(f"{ends[0]} to {ends[1]}", scale)


def sum_of(value: float, currency: str) -> str:
    """A sum of money to three digits."""
    return fmt.quantity(_cut(value, 3), fmt.money(currency))


def _cut(value: float, digits: int) -> float:
    return float(f"{value:.{digits}g}")
