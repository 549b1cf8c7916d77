"""Published dose-responses: pressure ratio and strain rate against the share that dies."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from racewright.door import within
from racewright.errors import InputError

KINDS = ("logit", "points", "onset")


@dataclass(frozen=True, slots=True)
class Chance:
    """A chance and what is known of it.

    Attributes
    ----------
    low, high : float
        Ends of what is known; 0 and 1 where nothing is [-].
    value : float or None
        None where the published work gives no figure [-].
    reason : str
        Why there is no value, or why the ends lie apart; '' where nothing needs saying.
    """

    low: float
    value: float | None
    high: float
    reason: str = ""


@dataclass(frozen=True, slots=True)
class PressureResponse:
    """Share that dies by the ratio of acclimation to nadir pressure, both absolute.

    Attributes
    ----------
    kind : {'logit', 'points', 'onset'}
    start, slope : float
        logit P = start + slope ln(ratio); 0 for other kinds [-].
    ratio, dead : tuple of float
        Points, growing; 'onset' has one ratio and no share [-].
    source, status : str
    """

    kind: str
    start: float
    slope: float
    ratio: tuple[float, ...]
    dead: tuple[float, ...]
    source: str
    status: str

    def at(self, ratio: float) -> Chance:
        """Chance at a ratio from 1 (less counts as 1) to 1000.

        Between points the value is linear in ln(ratio) from none at 1; the ends are the neighbours' (deaths grow with
        the ratio). Beyond the last point there is no value.
        """
        place = max(within("ratio", ratio, 1e-6, 1e3, "", 1.5), 1.0)
        if self.kind == "logit":
            value = 1.0 / (1.0 + math.exp(-(self.start + self.slope * math.log(place))))
            return Chance(value, value, value)
        if self.kind == "onset":
            if place < self.ratio[0]:
                return Chance(0.0, 0.0, 0.0, f"below the onset of injury at ratio {self.ratio[0]:g}")
            return Chance(
                0.0, None, 1.0, f"above the onset of injury at ratio {self.ratio[0]:g}; no share is published"
            )
        known, dead = (1.0, *self.ratio), (0.0, *self.dead)
        if place > known[-1]:
            return Chance(dead[-1], None, 1.0, f"the published points end at ratio {known[-1]:g}")
        i = next(i for i in range(1, len(known)) if place <= known[i])
        part = math.log(place / known[i - 1]) / math.log(known[i] / known[i - 1])
        value = dead[i - 1] + part * (dead[i] - dead[i - 1])
        return Chance(dead[i - 1], value, dead[i], "between published points")


@dataclass(frozen=True, slots=True)
class ShearResponse:
    """What is known of strain rates.

    Attributes
    ----------
    harmless : float or None
        Highest strain rate without notable injury [1/s].
    deadly : float or None
        Strain rate above which all died [1/s].
    source, status : str
    """

    harmless: float | None
    deadly: float | None
    source: str
    status: str

    def at(self, strain_rate: float) -> Chance:
        """Chance at a strain rate of 0 or more [1/s]: none, all, or not known between."""
        rate = within("strain_rate", strain_rate, 0.0, 1e6, "1/s", 300.0)
        if self.deadly is not None and rate > self.deadly:
            return Chance(1.0, 1.0, 1.0, f"all died above {self.deadly:g} 1/s")
        if self.harmless is not None and rate <= self.harmless:
            return Chance(0.0, 0.0, 0.0, f"no notable injury up to {self.harmless:g} 1/s")
        known = self.harmless if self.harmless is not None else 0.0
        return Chance(0.0, None, 1.0, f"above {known:g} 1/s injury is possible; no share is published")


UNKNOWN = Chance(0.0, None, 1.0, "no response of this class is published here")


def pressure_response(name: str, row: Mapping[str, Any]) -> PressureResponse:
    """From a table row; InputError where it cannot be."""
    kind = row.get("kind")
    if kind not in KINDS:
        raise InputError(f"pressure.kind of the fish '{name}' is {kind!r}; wanted one of {', '.join(KINDS)}")
    ratio, dead = (tuple(float(v) for v in row.get(key, ())) for key in ("ratio", "dead"))
    start, slope = (float(row.get(key, 0.0)) for key in ("start", "slope"))
    wanted = {"logit": not ratio and not dead and slope > 0.0 and math.isfinite(start + slope)}.get(kind)
    if wanted is None:
        rising = all(math.isfinite(v) for v in (*ratio, *dead)) and list(ratio) == sorted(set(ratio))
        shares = list(dead) == sorted(dead) and all(0.0 <= v <= 1.0 for v in dead)
        size = len(dead) == (len(ratio) if kind == "points" else 0) and (kind == "points" or len(ratio) == 1)
        wanted = bool(ratio) and ratio[0] > 1.0 and rising and shares and size
    if not wanted:
        raise InputError(
            f"pressure of the fish '{name}' wants a slope above 0 ('logit'), growing ratios above 1 with a share of "
            "0 to 1 each ('points'), or one ratio above 1 ('onset')"
        )
    return PressureResponse(kind, start, slope, ratio, dead, row["source"], row["status"])


def shear_response(name: str, row: Mapping[str, Any]) -> ShearResponse:
    """From a table row; InputError where it cannot be."""
    ends = [None if row.get(key) is None else float(row[key]) for key in ("harmless", "deadly")]
    if ends == [None, None] or any(e is not None and not (math.isfinite(e) and e > 0.0) for e in ends):
        raise InputError(f"shear of the fish '{name}' wants harmless, deadly or both, finite and above 0, in 1/s")
    if ends[0] is not None and ends[1] is not None and ends[0] > ends[1]:
        raise InputError(f"shear of the fish '{name}': harmless {ends[0]:g} is above deadly {ends[1]:g} 1/s")
    return ShearResponse(ends[0], ends[1], row["source"], row["status"])
