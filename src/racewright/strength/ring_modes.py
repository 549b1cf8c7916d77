"""Natural frequencies of a ring that bends in its plane, in air and in water."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.remark import Remark
from racewright.safety import SafetyBasis, safety_basis
from racewright.strength.added_mass import strip_added_mass, tube_added_mass
from racewright.strength.door import not_negative, positive, whole
from racewright.strength.ring import Ring

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class RingModes:
    """In-plane bending frequencies of a free ring, shape (count,) each.

    Attributes
    ----------
    waves : ndarray of int
        Waves around the ring, from 2.
    in_air, in_water : ndarray
        [Hz]
    added_mass_per_length : ndarray
        Water that moves radially, per length of circumference [kg/m].
    remarks : tuple of Remark
    safety : SafetyBasis
    """

    waves: NDArray[np.int64]
    in_air: Floats
    in_water: Floats
    added_mass_per_length: Floats
    remarks: tuple[Remark, ...]
    safety: SafetyBasis


def ring_frequency(ring: Ring, mass_per_length: float, waves: int, added_mass_per_length: float = 0.0) -> float:
    """Frequency of a free ring with `waves` waves around it [Hz].

    In air sqrt(E I n^2 (n^2 - 1)^2/(m R^4 (n^2 + 1)))/(2 pi) (Hoppe 1871); water moves with the radial part alone, so
    m (1 + 1/n^2) becomes m (1 + 1/n^2) + m_water.

    Parameters
    ----------
    ring : Ring
    mass_per_length : float
        Of the ring, > 0 [kg/m].
    waves : int
        2 to 50.
    added_mass_per_length : float
        >= 0 [kg/m].
    """
    positive("the ring's mass per length", mass_per_length, "kg/m", 8.0)
    not_negative("the added mass per length", added_mass_per_length, "kg/m", 50.0)
    n = whole("the number of waves", waves, 2, 50, 2)
    moving = mass_per_length * (1.0 + 1.0 / n**2) + added_mass_per_length
    return (n**2 - 1.0) / (2.0 * math.pi * ring.radius**2) * math.sqrt(ring.stiffness / moving)


def ring_modes(ring: Ring, mass_per_length: float, water_density: float, count: int = 3) -> RingModes:
    """Frequencies of a ring in air and in water on both sides.

    The water's mass is the smaller of two limits that both are too large: a flat strip as broad as the ring, and a
    long tube with as many waves. Our own choice.

    Parameters
    ----------
    ring : Ring
    mass_per_length : float
        Of the ring, > 0 [kg/m].
    water_density : float
        >= 0 [kg/m3].
    count : int
        1 to 20.
    """
    whole("the number of modes", count, 1, 20, 3)
    waves = np.arange(2, count + 2)
    strip = strip_added_mass(ring.width, water_density)
    water = [min(strip, tube_added_mass(ring.radius, ring.width, water_density, int(n))) for n in waves]
    return RingModes(
        waves=waves,
        in_air=np.array([ring_frequency(ring, mass_per_length, int(n)) for n in waves]),
        in_water=np.array(
            [ring_frequency(ring, mass_per_length, int(n), w) for n, w in zip(waves, water, strict=True)]
        ),
        added_mass_per_length=np.array(water),
        remarks=(
            Remark(
                "caution",
                "The ring is free and bends in its plane: vanes that hold it raise these frequencies, and motion "
                "out of its plane is not looked at.",
                "ring frequency",
            ),
        ),
        safety=safety_basis(
            "structure",
            "thin free ring (Hoppe), water mass of strip or tube, whichever is smaller",
            "closed form",
            "closed form in air; in water common practice, no source",
        ),
    )
