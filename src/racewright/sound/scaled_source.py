"""Source level from a measurement: carried back to 1 m, freed of background, scaled to another speed and size."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.door import row, within
from racewright.errors import InputError
from racewright.remark import Remark
from racewright.safety import safety_basis
from racewright.sound.absorption import absorption
from racewright.sound.propagation import propagation_loss
from racewright.sound.source import SoundSource
from racewright.sound.water_sound import SoundWater

Floats = NDArray[np.float64]

EXPONENTS = {"compact": 60.0, "long": 50.0}
"""dB per decade of speed: compact blades in turbulence (U^6); blades longer than the sound, or edges that scatter it
(U^5). Curle (1955), Ffowcs Williams and Hall (1970)."""
CLEAR = 3.0
"""Least excess over background at which the machine is told from it. Common practice, no source [dB]."""


@dataclass(frozen=True, slots=True)
class MeasuredSound:
    """Band levels measured beside a machine.

    Attributes
    ----------
    frequency : ndarray, shape (n,)
        [Hz]
    with_machine, background : ndarray, shape (n,)
        Band levels with the machine running and without it, in like water [dB re 1 uPa].
    distance : float
        From the machine, 1 to 1e5 [m].
    relative_speed : float
        Of the blades, such as `SoundingRow.mean_speed`, when it was measured [m/s].
    area : float
        Of the blades, chord over span of all [m2].
    uncertainty : float
        Half width at about 95 % of the measured levels, 0 to 30 [dB].
    where : str
        What, when and how: machine, date, drifting or fixed recorder.
    """

    frequency: Floats
    with_machine: Floats
    background: Floats
    distance: float
    relative_speed: float
    area: float
    uncertainty: float
    where: str

    def __post_init__(self) -> None:
        """Refuse a measurement that cannot be."""
        shape = row("frequency", self.frequency, 1.0, 1e6, "Hz").shape
        for key in ("with_machine", "background"):
            if row(key, getattr(self, key), -100.0, 300.0, "dB re 1 uPa").shape != shape:
                raise InputError(f"{key} wants one level for each of {shape[0]} bands", key=key)
        within("distance", self.distance, 1.0, 1e5, "m", 50.0)
        within("relative_speed", self.relative_speed, 1e-2, 100.0, "m/s", 6.0)
        within("area", self.area, 1e-5, 1e4, "m2", 0.3)
        within("uncertainty", self.uncertainty, 0.0, 30.0, "dB", 3.0)
        if not self.where.strip():
            raise InputError("a measurement wants to say where and how it was taken", key="where")


def scaled_source(
    measured: MeasuredSound,
    relative_speed: float,
    area: float,
    *,
    spreading: str = "spherical",
    water: SoundWater,
    absorbed: str = "ainslie_mccolm",
    water_depth: float | None = None,
    exponent: float = EXPONENTS["compact"],
) -> SoundSource:
    """Source level of a machine from a measurement of it or of a like one.

    Background's power is taken off; bands that stand less than 3 dB above it are bounds, at the level with the
    machine. Then + loss on the way to the recorder, + exponent lg(speed/measured speed) + 10 lg(area/measured area).
    Frequencies stay: state a measurement near the speed wanted.

    Parameters
    ----------
    measured : MeasuredSound
    relative_speed, area : float
        Of the machine wanted [m/s], [m2].
    spreading, absorbed : str
        Laws on the way to the recorder; spherical fitted best in a river (Bevelhimer and others 2016).
    water : SoundWater
    water_depth : float, optional
        For mixed spreading [m].
    exponent : float
        30 to 80 per decade of speed; 60 by default, see `EXPONENTS` [dB].

    Raises
    ------
    InputError
        A value out of range, or a running machine that is nowhere louder than the background.
    """
    within("relative_speed", relative_speed, 1e-2, 100.0, "m/s", 6.0)
    within("area", area, 1e-5, 1e4, "m2", 0.3)
    within("exponent", exponent, 30.0, 80.0, "dB", 60.0)
    above = measured.with_machine - measured.background
    clear = above >= CLEAR
    if not np.any(clear):
        raise InputError(
            f"no band stands {CLEAR:g} dB above the background; measure nearer or in quieter water",
            key="with_machine",
        )
    freed = np.where(clear, _less(measured.with_machine, measured.background, clear), measured.with_machine)
    loss = propagation_loss(
        spreading, measured.distance, absorption(absorbed, measured.frequency, water), water_depth
    )
    faster = math.log10(relative_speed / measured.relative_speed)
    gain = exponent * faster + 10.0 * math.log10(area / measured.area)
    law = 10.0 * abs(faster)
    spread = 0.0 if measured.distance <= 1.0 else 2.0
    remarks = [Remark("note", f"Scaled from: {measured.where}.", "source")]
    if not np.all(clear):
        remarks.append(
            Remark(
                "caution",
                f"{int(np.sum(~clear))} of {clear.size} bands do not stand {CLEAR:g} dB above the background: "
                "theirs are upper bounds.",
                "source",
            )
        )
    return SoundSource(
        name="scaled from a measurement",
        frequency=measured.frequency,
        level=freed + loss + gain,
        tones=(),
        uncertainty=min(60.0, math.hypot(measured.uncertainty, law, spread)),
        uncertainty_basis=(
            f"measured {measured.uncertainty:g} dB, exponent 50 or 70 instead of 60 {law:.1f} dB, way to the "
            f"recorder {spread:g} dB (own choice)"
        ),
        remarks=tuple(remarks),
        safety=safety_basis("sound", f"measured: {measured.where}", "-", "measured by the user, scaled"),
    )


def _less(level: Floats, other: Floats, where: NDArray[np.bool_]) -> Floats:
    """Level of the power that is left when another's is taken off."""
    part = np.where(where, 10.0 ** ((other - level) / 10.0), 0.0)
    return np.asarray(level + 10.0 * np.log10(1.0 - part), dtype=np.float64)
