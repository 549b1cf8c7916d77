"""Natural frequencies against what shakes them: rotor, blade and vane passing."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from racewright.errors import InputError
from racewright.remark import Remark
from racewright.safety import SafetyBasis, safety_basis
from racewright.strength.door import finite_row, positive, whole, within

MARGIN = 0.2
"""Least distance of a natural frequency from what shakes it, over the latter; common practice, no source [-]."""

TURNING = "blade"
"""The part that turns with the rotor."""


@dataclass(frozen=True, slots=True)
class Meeting:
    """One natural frequency beside one source that shakes it.

    Attributes
    ----------
    part : str
    mode : int
        From 1.
    natural : float
        [Hz]
    shaken_by : {'rotor', 'blade passing', 'vane passing'}
    multiple : int
        Harmonic of that source.
    lowest, highest : float
        Its frequencies over the rotor's speeds [Hz].
    separation : float
        Distance of the natural frequency from the nearest of them over that one; 0 when it is crossed [-].
    critical_speed : float
        Rotor speed at which both meet [rad/s].
    apart : bool
        Whether the separation is at least the margin.
    direct : bool
        The source sweeps past the part; else it reaches it through the water and the shell alone. Blades meet the
        vanes' wakes, vanes and duct the blades; all feel the rotor's unbalance.
    """

    part: str
    mode: int
    natural: float
    shaken_by: str
    multiple: int
    lowest: float
    highest: float
    separation: float
    critical_speed: float
    apart: bool
    direct: bool


@dataclass(frozen=True, slots=True)
class Resonance:
    """Every meeting, nearest first.

    Attributes
    ----------
    meetings : tuple of Meeting
    margin : float
        [-]
    remarks : tuple of Remark
    safety : SafetyBasis
    """

    meetings: tuple[Meeting, ...]
    margin: float
    remarks: tuple[Remark, ...]
    safety: SafetyBasis


def resonance(
    natural: Mapping[str, ArrayLike],
    slowest: float,
    fastest: float,
    blades: int,
    vanes: int,
    *,
    harmonics: int = 2,
    margin: float = MARGIN,
) -> Resonance:
    """Set natural frequencies against rotor, blade passing and vane passing over a range of rotor speeds.

    Blades feel the vanes pass, vanes and duct feel the blades pass, everything feels the rotor turn: these meetings
    are direct, and one that is not far enough apart is a warning. Every part is set against all three, for the water
    carries them; the other meetings are a caution.

    Parameters
    ----------
    natural : mapping of array_like
        Frequencies in water by part, > 0, lowest first; 'blade' turns with the rotor, all others stand [Hz].
    slowest, fastest : float
        Rotor speeds in use, 0 < slowest <= fastest; runaway belongs to them if it can last [rad/s].
    blades, vanes : int
        1 to 200.
    harmonics : int
        Multiples of each source, 1 to 20.
    margin : float
        0.01 to 1 [-].
    """
    positive("the slowest rotor speed", slowest, "rad/s", 5.0)
    positive("the fastest rotor speed", fastest, "rad/s", 15.0)
    if slowest > fastest:
        raise InputError(f"the slowest rotor speed {slowest:g} rad/s stands above the fastest, {fastest:g} rad/s")
    whole("the number of harmonics", harmonics, 1, 20, 2)
    within("the separation margin", margin, 0.01, 1.0, "", MARGIN)
    sources = {
        "rotor": 1,
        "blade passing": whole("the number of blades", blades, 1, 200, 5),
        "vane passing": whole("the number of vanes", vanes, 1, 200, 7),
    }
    swept = {part: "vane passing" if part == TURNING else "blade passing" for part in natural}
    found = [
        _meeting(part, mode, float(value), source, order * per_turn, order, slowest, fastest, margin, swept[part])
        for part, values in natural.items()
        for mode, value in enumerate(_frequencies(part, values), start=1)
        for source, per_turn in sources.items()
        for order in range(1, harmonics + 1)
    ]
    if not found:
        raise InputError("no natural frequency is given; wanted one part or more with its frequencies in Hz")
    found.sort(key=lambda meeting: meeting.separation)
    return Resonance(
        tuple(found),
        margin,
        _remarks(found, margin),
        safety_basis(
            "structure",
            f"separation margin {margin:g}",
            "stated by the user" if margin != MARGIN else "2026-11",
            "common practice, no source" if margin == MARGIN else "user's own",
        ),
    )


def _frequencies(part: str, values: ArrayLike) -> list[float]:
    row = finite_row(f"the frequencies of the {part}", values, "Hz")
    if np.any(row <= 0.0):
        raise InputError(f"the frequencies of the {part} hold one that is not above 0 Hz")
    return [float(value) for value in row]


def _meeting(
    part: str,
    mode: int,
    natural: float,
    source: str,
    per_turn: int,
    order: int,
    slowest: float,
    fastest: float,
    margin: float,
    swept: str,
) -> Meeting:
    low, high = per_turn * slowest / (2.0 * math.pi), per_turn * fastest / (2.0 * math.pi)
    nearest = min(max(natural, low), high)
    separation = abs(natural - nearest) / nearest
    critical = 2.0 * math.pi * natural / per_turn
    direct = source in ("rotor", swept)
    return Meeting(part, mode, natural, source, order, low, high, separation, critical, separation >= margin, direct)


def _remarks(found: list[Meeting], margin: float) -> tuple[Remark, ...]:
    close = [meeting for meeting in found if not meeting.apart]
    if not close:
        return (
            Remark(
                "note",
                f"Every natural frequency stands at least {100.0 * margin:.0f} % from what shakes it.",
                "resonance",
            ),
        )
    return tuple(
        Remark(
            "warning" if meeting.direct else "caution",
            f"Mode {meeting.mode} of the {meeting.part} ({meeting.natural:.1f} Hz) meets {meeting.multiple} x "
            f"{meeting.shaken_by} at {meeting.critical_speed * 30.0 / math.pi:.0f} rpm "
            f"(separation {100.0 * meeting.separation:.0f} %, wanted {100.0 * margin:.0f} %)"
            f"{'' if meeting.direct else '; it reaches that part through water and shell alone'}.",
            "resonance",
        )
        for meeting in close
    )
