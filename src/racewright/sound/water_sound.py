"""The water as sound knows it."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.door import within


@dataclass(frozen=True, slots=True)
class SoundWater:
    """What absorption and speed of sound hang on.

    Attributes
    ----------
    temperature : float
        271.15 to 313.15 [K].
    salinity : float
        0 (fresh) to 45; 35 in the open sea [g/kg].
    depth : float
        Of the sound's way, 0 to 1000 [m].
    acidity : float
        pH, 6 to 9; 8 by default (usual in the sea; does nothing in fresh water) [-].

    Raises
    ------
    InputError
        A value is not finite or out of range.
    """

    temperature: float
    salinity: float
    depth: float = 0.0
    acidity: float = 8.0

    def __post_init__(self) -> None:
        """Refuse water that cannot be."""
        within("temperature", self.temperature, 271.15, 313.15, "K", 283.15)
        within("salinity", self.salinity, 0.0, 45.0, "g/kg", 35.0)
        within("depth", self.depth, 0.0, 1000.0, "m", 5.0)
        within("acidity", self.acidity, 6.0, 9.0, "", 8.0)

    @property
    def celsius(self) -> float:
        """Temperature [degC]."""
        return self.temperature - 273.15


FRESH = SoundWater(283.15, 0.0)
SEA = SoundWater(283.15, 35.0)
"""Fresh and sea water of 10 degC at the surface."""
