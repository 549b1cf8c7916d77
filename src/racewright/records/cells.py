"""One cell of a data file: a decimal number, or a time stamp."""

from __future__ import annotations

import math
import re
from datetime import datetime

from racewright.records.csv_form import Decimal

_STAMP = re.compile(
    r"\d{4}-\d\d-\d\d(?:[T ]\d\d:\d\d(?::\d\d(?:\.0+)?)?(Z|[+-]\d\d:\d\d)?)?",
    re.ASCII,
)
_MARK = {".": "point", ",": "comma"}
_SWAPPED = str.maketrans({",": ".", ".": ","})
_DAY = 86400
_EPOCH = datetime(1970, 1, 1).toordinal()


def number(text: str, decimal: Decimal = "point") -> float:
    """Read a finite decimal number.

    Parameters
    ----------
    text : str
    decimal : {'point', 'comma'}
        The mark before its decimals. Marks between thousands are refused.

    Raises
    ------
    ValueError
        With what was found and what would be right, without file and line.
    """
    pointed = text if decimal == "point" else text.translate(_SWAPPED)
    try:
        value = float(pointed)
    except ValueError:
        value = math.nan
    if math.isfinite(value) and text.isascii() and "_" not in text:
        return value
    shown = shorten(text)
    wanted, other = (".", ",") if decimal == "point" else (",", ".")
    if re.fullmatch(rf"[+-]?\d+[{other}]\d+", text):
        like = repr(text.replace(other, wanted))
        raise ValueError(f"{shown} has a decimal {_MARK[other]}; a decimal {_MARK[wanted]} is wanted, like {like}")
    if text.lower().lstrip("+-") in ("nan", "na", "n/a", "null", "none", "inf", "infinity", "-", "--"):
        raise ValueError(f"{shown} is not a number; leave the cell blank where there is no value")
    raise ValueError(f"{shown} is not a number; a decimal number like {f'35{wanted}2'!r} is wanted")


def stamp(text: str, zone_seconds: int) -> int:
    """Read a date or date-time as seconds since 1970-01-01 UTC.

    Parameters
    ----------
    text : str
        `YYYY-MM-DD`, or `YYYY-MM-DDThh:mm[:ss]` (a blank may replace the T) with `Z` or `+hh:mm` if it has an
        offset of its own.
    zone_seconds : int
        Offset of stamps that have none of their own [s].

    Raises
    ------
    ValueError
        With what was found and what would be right, without file and line.
    """
    match = _STAMP.fullmatch(text)
    try:
        if match is None:
            raise ValueError
        moment = datetime.fromisoformat(text)
    except ValueError:
        raise ValueError(
            f"{shorten(text)} is not a time stamp; a date like '2021-03-31' or a time in whole seconds like "
            "'2021-03-31T14:00' is wanted"
        ) from None
    offset = moment.utcoffset()
    shift = zone_seconds if offset is None else int(offset.total_seconds())
    clock = moment.hour * 3600 + moment.minute * 60 + moment.second
    return (moment.toordinal() - _EPOCH) * _DAY + clock - shift


def shorten(text: str) -> str:
    """Quote text from a file for a message: escaped, at most 60 characters."""
    return repr(text if len(text) <= 60 else text[:57] + "...")
