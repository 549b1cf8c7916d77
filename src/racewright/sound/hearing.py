"""Auditory groups by edition, their weighting, and thresholds."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.door import numbers
from racewright.errors import InputError
from racewright.safety import SafetyBasis, safety_basis

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class AuditoryGroup:
    """One hearing group of one edition.

    Attributes
    ----------
    edition, name : str
        '2018' or '2024', and the group's letters there.
    title : str
    low_exponent, high_exponent : float
        a, b [-].
    low_frequency, high_frequency : float
        f1, f2 [Hz].
    gain : float
        C, which makes the peak 0 dB [dB].
    shift_threshold, injury_threshold : float
        Weighted exposure level over 24 h of non-impulsive sound: temporary shift, injury [dB re 1 uPa2 s].
    safety : SafetyBasis
    """

    edition: str
    name: str
    title: str
    low_exponent: float
    high_exponent: float
    low_frequency: float
    high_frequency: float
    gain: float
    shift_threshold: float
    injury_threshold: float
    safety: SafetyBasis


@dataclass(frozen=True, slots=True)
class PressureThreshold:
    """A threshold of unweighted rms sound pressure.

    Attributes
    ----------
    name, title : str
    level : float
        [dB re 1 uPa]
    duration : float or None
        For which it is stated, None where it names none [s].
    safety : SafetyBasis
    """

    name: str
    title: str
    level: float
    duration: float | None
    safety: SafetyBasis


def editions() -> tuple[str, ...]:
    """Editions with groups, older first."""
    return tuple(_data()["group"])


def groups_of(edition: str) -> tuple[tuple[str, str], ...]:
    """Every group of an edition as (edition, letters), as `level` asks for them; InputError for an unknown one."""
    if edition not in _data()["group"]:
        raise InputError(f"no edition is called {edition!r}; there are {', '.join(editions())}", key="edition")
    return tuple((edition, name) for name in _data()["group"][edition])


def auditory_group(edition: str, name: str) -> AuditoryGroup:
    """A group by edition and letters, such as ('2024', 'VHF').

    Raises
    ------
    InputError
        No edition, an unknown one, or a group that it has not. The letters alone do not say which: 'HF' of 2018 is
        'VHF' of 2024.
    """
    groups = _data()["group"]
    if not isinstance(edition, str) or edition not in groups:
        raise InputError(
            f"the auditory group {name!r} wants an edition, one of {', '.join(groups)}; found {edition!r}. The same "
            "letters mean other animals in another edition.",
            key="edition",
        )
    if name not in groups[edition]:
        raise InputError(f"edition {edition} has no group {name!r}; it has {', '.join(groups[edition])}", key="group")
    row = groups[edition][name]
    return AuditoryGroup(
        edition,
        name,
        row["title"],
        row["a"],
        row["b"],
        1e3 * row["f1"],
        1e3 * row["f2"],
        row["gain"],
        row["shift"],
        row["injury"],
        _safety(f"{_data()['source'][edition]}, group {name}", edition, _data()["status"][edition]),
    )


def weighting(group: AuditoryGroup, frequency: ArrayLike) -> Floats:
    """Auditory weighting, 0 at its peak, shape of frequency (1e-3 to 1e6 Hz) [dB].

    C + 10 lg{ (f/f1)^(2a) / [(1 + (f/f1)^2)^a (1 + (f/f2)^2)^b] }, Finneran's form of the NMFS editions.
    """
    f = numbers("frequency", frequency, 1e-3, 1e6, "Hz")
    low, high = (f / group.low_frequency) ** 2, (f / group.high_frequency) ** 2
    ratio = group.low_exponent * np.log10(low / (1.0 + low)) - group.high_exponent * np.log10(1.0 + high)
    return np.asarray(group.gain + 10.0 * ratio, dtype=np.float64)


def pressure_thresholds() -> tuple[PressureThreshold, ...]:
    """Every packaged threshold of sound pressure."""
    return tuple(
        PressureThreshold(
            name,
            row["title"],
            row["level"],
            row.get("duration"),
            _safety(row["source"], row["edition"], row["status"]),
        )
        for name, row in _data()["pressure"].items()
    )


@cache
def _data() -> dict[str, Any]:
    return tomllib.loads(resources.files("racewright.sound").joinpath("data/hearing.toml").read_text("utf-8"))


def _safety(basis: str, edition: str, status: str) -> SafetyBasis:
    return safety_basis("sound", basis, edition, status)
