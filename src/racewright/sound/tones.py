"""Tones of rotor and vanes: frequencies, and upper bounds of their levels from the vanes' wakes."""

from __future__ import annotations

import math

import numpy as np

from racewright.door import within
from racewright.machine.row import Row
from racewright.sound.gust import dipole_level, gust_lift
from racewright.sound.sounding_row import SoundingRow, sounding_rows
from racewright.sound.source import Tone
from racewright.stage.result import OperatingPoint


def passing_frequencies(rotor_speed: float, vane_count: int, blade_count: int) -> tuple[float, float, float]:
    """Blade passing, vane passing, and the lowest at which all blades push together [Hz].

    B Omega/2 pi at a fixed place, V Omega/2 pi on a blade, and their least common multiple: with no common factor V
    B.
    """
    turns = within("rotor_speed", rotor_speed, 0.0, 1e4, "rad/s", 10.0) / (2.0 * math.pi)
    return blade_count * turns, vane_count * turns, math.lcm(vane_count, blade_count) * turns


def machine_tones(
    vanes: Row, blades: Row, point: OperatingPoint, density: float, sound_speed: float
) -> tuple[Tone, ...]:
    """Tones of a machine at an operating point, as compact axial dipoles; levels are upper bounds.

    The vanes' loss leaves wakes behind them; a thin wake's harmonics are each twice its mean deficit, which is the
    most they can be. With even vanes and blades only harmonics that are whole multiples of both counts push all
    blades together. Blade passing needs one vane that differs from the others (fouled, dented), vane passing one
    blade: their levels stand for a vane or a blade wholly apart.

    Parameters
    ----------
    vanes, blades : Row
    point : OperatingPoint
    density, sound_speed : float
        [kg/m3], [m/s]

    Returns
    -------
    tuple of Tone
        Without levels where the rotor stands or the vanes lose nothing.
    """
    within("density", density, 900.0, 1100.0, "kg/m3", 1000.0)
    _still, rotor = sounding_rows(vanes, blades, point)
    known = point.triangles
    leaving = float(np.mean(np.hypot(known.axial_speed, known.swirl_in)))
    lost = point.losses.vane_profile * 0.5 * point.stream_speed**2
    deficit = lost / leaving
    by_blade, by_vane, both = passing_frequencies(point.rotor_speed, vanes.count, blades.count)
    plans = (
        ("blade passing", by_blade, blades.count / vanes.count, "one vane wholly unlike the others"),
        ("vane passing", by_vane, 1.0, "one blade wholly unlike the others"),
        ("vanes and blades together", both, float(blades.count), "wakes of even vanes, all blades at once"),
    )
    return tuple(
        _tone(name, frequency, share * deficit, rotor, density, sound_speed, words)
        for name, frequency, share, words in plans
    )


def _tone(
    name: str, frequency: float, gust: float, rotor: SoundingRow, density: float, sound_speed: float, words: str
) -> Tone:
    """A tone whose gust's amplitude, over as many blades as push together, is twice `gust` [m/s]."""
    if not (frequency > 0.0 and gust > 0.0):
        return Tone(name, frequency, None, "no level: the rotor stands, or the vanes leave no wake")
    lift = gust_lift(frequency, rotor.relative_speed, rotor.chord, density) * rotor.axial_lift
    force = 2.0 * gust * float(np.trapezoid(lift, rotor.radius))
    level = float(dipole_level(frequency, 0.5 * force**2, sound_speed))
    return Tone(name, frequency, level, f"upper bound: {words}; thin wakes, axial push")
