"""Whether a struck fish dies: a range from laboratory strikes, and a screening value within it."""

from __future__ import annotations

import math
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.door import numbers
from racewright.passage.strike_chance import LONGEST
from racewright.safety import SafetyBasis, safety_basis

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Injury:
    """Share of struck fish that die of the blow, shape of the arguments laid over each other.

    Attributes
    ----------
    low, high : ndarray
        What the laboratory rows bound; 0 and 1 where they say nothing [-].
    value : ndarray
        The published ratio by length, moved into that range [-].
    safety : SafetyBasis
    """

    low: Floats
    value: Floats
    high: Floats
    safety: SafetyBasis


def injury(relative_speed: ArrayLike, length: ArrayLike, edge_thickness: ArrayLike, slant: ArrayLike) -> Injury:
    """Range of the share of struck fish that die, and a screening value within it.

    Each row of `data/strikes.toml` bounds from above what is slower, blunter and more slanted than it, from below
    what is faster, thinner and squarer. The value is the mutilation ratio of one low-head site, 0.1533 ln(L in cm) +
    0.0125 (Turnpenny and others 2000), moved into the range. Wounds that do not kill are not in it.

    Parameters
    ----------
    relative_speed : array_like
        Of the edge against the fish, 0 to 100 [m/s].
    length : array_like
        Of the fish, 1e-4 to 50 [m].
    edge_thickness : array_like
        0 (sharp) to 1 [m].
    slant : array_like
        Between the edge and the relative speed, 0 to pi/2; pi/2 is square-on [rad].

    Raises
    ------
    InputError
        A value is not finite or outside its range.
    """
    speed, long, edge, angle = np.broadcast_arrays(
        numbers("relative_speed", relative_speed, 0.0, 100.0, "m/s"),
        numbers("length", length, 1e-4, LONGEST, "m"),
        numbers("edge_thickness", edge_thickness, 0.0, 1.0, "m"),
        numbers("slant", slant, 0.0, 0.5 * math.pi, "rad"),
    )
    low, high = np.zeros(speed.shape), np.ones(speed.shape)
    for row in _data()["row"]:
        square = math.radians(row["slant"])
        least, most = row["dead"]
        ratio = row.get("ratio")
        blunter = np.full(speed.shape, True) if ratio is None else long <= ratio * edge
        thinner = np.full(speed.shape, False) if ratio is None else long >= ratio * edge
        milder = (speed <= row["speed"]) & blunter & (angle <= square)
        harsher = (speed >= row["speed"]) & thinner & (angle >= square)
        high = np.where(milder, np.minimum(high, most), high)
        low = np.where(harsher, np.maximum(low, least), low)
    return Injury(low, np.clip(mutilation_ratio(long), low, high), high, _safety())


def mutilation_ratio(length: ArrayLike) -> Floats:
    """Share of struck fish that die at one low-head site, 0.1533 ln(L in cm) + 0.0125, within 0 to 1 [-].

    Turnpenny and others (2000), from memory; `length` 1e-4 to 50 [m].
    """
    form = _data()["mutilation"]
    long = numbers("length", length, 1e-4, LONGEST, "m")
    return np.asarray(np.clip(form["slope"] * np.log(100.0 * long) + form["start"], 0.0, 1.0), dtype=np.float64)


def safe_speed() -> float:
    """Strike speed below which practically no struck trout died, whatever the edge [m/s]."""
    return float(min(row["speed"] for row in _data()["row"] if "ratio" not in row))


@cache
def _data() -> dict[str, Any]:
    return tomllib.loads(resources.files("racewright.passage").joinpath("data/strikes.toml").read_text("utf-8"))


@cache
def _safety() -> SafetyBasis:
    data = _data()
    rows = "; ".join(dict.fromkeys(f"{row['source']} ({row['status']})" for row in data["row"]))
    return safety_basis(
        "fish",
        f"strikes on {data['fish']}: {rows}. Growth with speed and thinness: {data['monotone']}. Value within the "
        f"range: {data['mutilation']['source']} ({data['mutilation']['status']}).",
        data["edition"],
        "published bounds, most from memory",
    )
