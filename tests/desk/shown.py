"""Numbers as a page shows them, set against an answer's JSON with its units."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from typing import Any

THIN = "\u202f"

_SI = {
    "": ("-", 1.0),
    "%": ("-", 1e-2),
    "W": ("W", 1.0),
    "kW": ("W", 1e3),
    "MW": ("W", 1e6),
    "kWh": ("J", 3.6e6),
    "MWh": ("J", 3.6e9),
    "GWh": ("J", 3.6e12),
    "N": ("N", 1.0),
    "kN": ("N", 1e3),
    "MN": ("N", 1e6),
    "Pa": ("Pa", 1.0),
    "kPa": ("Pa", 1e3),
    "MPa": ("Pa", 1e6),
    f"N{THIN}m": ("N m", 1.0),
    f"kN{THIN}m": ("N m", 1e3),
    "mm": ("m", 1e-3),
    "m": ("m", 1.0),
    "km": ("m", 1e3),
    "kg": ("kg", 1.0),
    "t": ("kg", 1e3),
    "m/s": ("m/s", 1.0),
    "m³/s": ("m3/s", 1.0),
    "rpm": ("rad/s", math.pi / 30.0),
    "°": ("rad", math.pi / 180.0),
    "s": ("s", 1.0),
    "h": ("s", 3600.0),
    "years": ("yr", 1.0),
    "dB": ("dB", 1.0),
    "L": ("m3", 1e-3),
    "L a year": ("m3/yr", 1e-3),
    "EUR": ("EUR", 1.0),
    "EUR/kWh": ("EUR/J", 1.0 / 3.6e6),
    "EUR a year": ("EUR/yr", 1.0),
}
"""Units that pages show: the unit of the JSON, and how many of it one is; a range says "SI" of its ends."""
_LONG = {"years": [("s", 365.25 * 86400.0)]}
"""Times that the JSON has in seconds."""

_NUMBER = re.compile(rf"([+\u2212]?)(\d[\d{THIN}]*)(\.\d+)?{THIN}?(.*)")


def not_in(answers: list[dict[str, Any]], shown: dict[str, str]) -> list[str]:
    """Figures that are neither a text of the answers nor one of their numbers, rounded as shown.

    Parameters
    ----------
    answers : list of dict
        JSON of a page, with `units` by path.
    shown : dict
        Figures by label.
    """
    known: dict[str, list[float]] = {}
    texts: set[str] = set()
    for answer in answers:
        for path, value in _leaves({k: v for k, v in answer.items() if k not in ("units", "provenance")}, ""):
            if isinstance(value, str):
                texts.add(value)
            else:
                known.setdefault(answer["units"].get(path, "?"), []).append(float(value))
    return [f"{label}: {text}" for label, text in shown.items() if text not in texts and not _known(text, known)]


def _known(text: str, known: dict[str, list[float]]) -> bool:
    """A number, or a range of two."""
    return all(_is_one(end, known) for end in text.split(" to "))


def _is_one(text: str, known: dict[str, list[float]]) -> bool:
    found = _NUMBER.fullmatch(text)
    if found is None or found[4] not in _SI:
        return False
    decimals = len(found[3] or ".") - 1
    value = float(found[2].replace(THIN, "") + (found[3] or "")) * (-1.0 if found[1] == "\u2212" else 1.0)
    half = 0.5000001 * 10.0**-decimals * _idle(found[2], decimals)
    units = [_SI[found[4]], ("SI", _SI[found[4]][1]), *_LONG.get(found[4], ())]
    return any(abs(one / factor - value) <= half for unit, factor in units for one in known.get(unit, ()))


def _idle(whole: str, decimals: int) -> float:
    """Ten for each nought at the end of a whole number: it may have been rounded there."""
    digits = whole.replace(THIN, "")
    return 1.0 if decimals else 10.0 ** (len(digits) - len(digits.rstrip("0"))) if digits.strip("0") else 1.0


def _leaves(value: Any, path: str) -> Iterator[tuple[str, str | float]]:
    if isinstance(value, dict):
        for key, item in value.items():
            yield from _leaves(item, f"{path}.{key}" if path else key)
    elif isinstance(value, list):
        for item in value:
            yield from _leaves(item, f"{path}[]")
    elif isinstance(value, str) or (isinstance(value, int | float) and not isinstance(value, bool)):
        yield path, value
