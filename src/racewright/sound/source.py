"""A source of sound under water: bands, tones, and how well they are known."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.door import row, within
from racewright.errors import InputError
from racewright.remark import Remark
from racewright.safety import SafetyBasis

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Tone:
    """One tone of the machine.

    Attributes
    ----------
    name : str
        E.g. 'blade passing'.
    frequency : float
        [Hz]
    level : float or None
        Source level, None where nothing is known of it [dB re 1 uPa m].
    words : str
        What makes it, or why there is no level.
    """

    name: str
    frequency: float
    level: float | None
    words: str


@dataclass(frozen=True, slots=True)
class SoundSource:
    """Source levels of n bands, and tones beside them.

    Attributes
    ----------
    name : str
    frequency : ndarray, shape (n,)
        Middle frequencies, growing, 1 to 1e6 [Hz].
    level : ndarray, shape (n,)
        Source level in each band, -300 to 300 [dB re 1 uPa m].
    tones : tuple of Tone
        Their power is not in the bands.
    uncertainty : float
        Half width that holds about 95 % of what is believed of the levels, 0 to 60 [dB].
    uncertainty_basis : str
        Where that comes from.
    remarks : tuple of Remark
    safety : SafetyBasis

    Raises
    ------
    InputError
        A value is not finite or out of range, the shapes differ, no basis for the uncertainty.
    """

    name: str
    frequency: Floats
    level: Floats
    tones: tuple[Tone, ...]
    uncertainty: float
    uncertainty_basis: str
    remarks: tuple[Remark, ...]
    safety: SafetyBasis

    def __post_init__(self) -> None:
        """Refuse a source that cannot be."""
        frequency = row("frequency", self.frequency, 1.0, 1e6, "Hz")
        level = row("level", self.level, -300.0, 300.0, "dB re 1 uPa m")
        if frequency.shape != level.shape or np.any(np.diff(frequency) <= 0.0):
            raise InputError(
                f"{level.size} levels for {frequency.size} bands; give one each, by growing frequency", key="level"
            )
        within("uncertainty", self.uncertainty, 0.0, 60.0, "dB", 10.0)
        if not self.uncertainty_basis.strip():
            raise InputError("the uncertainty wants to say where it comes from", key="uncertainty_basis")
        for tone in self.tones:
            within("frequency", tone.frequency, 0.0, 1e6, "Hz", 10.0)
            if tone.level is not None:
                within("level", tone.level, -300.0, 300.0, "dB re 1 uPa m", 120.0)
