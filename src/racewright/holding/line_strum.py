"""Whether a line hums in the current: shedding frequency against the modes of a string."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.machine.drive_checks import number

STROUHAL = 0.2
"""Shedding frequency x diameter/speed of a round line (DNV-RP-C205; law read, value from memory) [-]."""
CROSS_FLOW = (4.0, 8.0)
IN_LINE = (1.0, 3.5)
"""Reduced speeds U/(f d) where a mode may lock in, across and along the stream (DNV-RP-C205, memory 85 %) [-]."""
AMPLITUDE_RATIO = 1.0
"""Amplitude over diameter of a line that is fully locked in (from memory, 70 %) [-]."""


@dataclass(frozen=True, slots=True)
class Strum:
    """A line against vortex shedding.

    Attributes
    ----------
    shedding_frequency : float
        Strouhal number x normal speed/diameter [Hz].
    string_frequency : float
        First mode, sqrt(tension/mass)/(2 length), mass with added mass; 0 when slack [Hz].
    mode : float
        Shedding over string frequency: about which mode it meets; infinite when slack [-].
    reduced_velocity : float
        Normal speed/(frequency of the nearest mode x diameter), about 1/Strouhal number when modes lie close [-].
    cross_flow, in_line : bool
        A mode lies in the range where the line may lock in.
    drag_factor : float
        On the drag if it does, 1 + 2.1 x amplitude/diameter at an amplitude of one diameter; else 1 [-].
    basis : str
    """

    shedding_frequency: float
    string_frequency: float
    mode: float
    reduced_velocity: float
    cross_flow: bool
    in_line: bool
    drag_factor: float
    basis: str


def strumming(speed: float, diameter: float, length: float, tension: float, mass: float, added_mass: float) -> Strum:
    """Shedding against string modes of one line.

    Parameters
    ----------
    speed : float
        Square to the line, >= 0 [m/s].
    diameter, length : float
        > 0 [m].
    tension : float
        Mean, >= 0 [N].
    mass, added_mass : float
        Per length, in air, and of the water that moves with it (displaced mass for a round line) [kg/m].
    """
    number("The speed", speed, 0.0, 50.0, "m/s")
    number("The diameter", diameter, 1e-6, 10.0, "m")
    number("The length", length, 1e-6, 1e6, "m")
    number("The tension", tension, 0.0, 1e12, "N")
    number("The line's mass", mass + added_mass, 1e-9, 1e6, "kg/m")
    shedding = STROUHAL * speed / diameter
    first = math.sqrt(tension / (mass + added_mass)) / (2.0 * length)
    if first == 0.0 or shedding == 0.0:
        return Strum(shedding, first, math.inf if shedding > 0.0 else 0.0, 0.0, False, False, 1.0, _BASIS)
    mode = shedding / first
    nearest = max(1, round(mode))
    across, along = (_meets(speed / (first * diameter), *ends) for ends in (CROSS_FLOW, IN_LINE))
    factor = drag_factor(AMPLITUDE_RATIO) if across else 1.0
    return Strum(shedding, first, mode, speed / (nearest * first * diameter), across, along, factor, _BASIS)


def drag_factor(amplitude_ratio: float) -> float:
    """Factor on drag of a line that vibrates, 1 + 2.1 A/d (Vandiver and Blevins forms, from memory, 70 %) [-].

    Parameters
    ----------
    amplitude_ratio : float
        Amplitude over diameter, 0 to 2 [-].
    """
    return 1.0 + 2.1 * number("The amplitude over diameter", amplitude_ratio, 0.0, 2.0)


def _meets(first_mode: float, low: float, high: float) -> bool:
    """Whether some whole mode has its reduced speed between low and high; `first_mode` is that of mode 1."""
    return max(1, math.ceil(first_mode / high)) <= math.floor(first_mode / low)


_BASIS = "shedding law with Strouhal number 0.2 and the modes of a taut string, common practice; ranges from memory"
