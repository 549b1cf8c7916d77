"""Underwater sound: source, way, ambient, hearing."""

from __future__ import annotations

from racewright.sound.absorption import absorption, sound_speed
from racewright.sound.ambient import ambient_bands, ambient_parts
from racewright.sound.hearing import auditory_group, groups_of, weighting
from racewright.sound.level import level
from racewright.sound.propagation import propagation_loss
from racewright.sound.scaled_source import MeasuredSound, scaled_source
from racewright.sound.sounding_row import SoundingRow, sounding_rows
from racewright.sound.source import SoundSource, Tone
from racewright.sound.tones import machine_tones, passing_frequencies
from racewright.sound.turbulence_source import turbulence_source
from racewright.sound.water_sound import SoundWater

__all__ = [
    "MeasuredSound",
    "SoundSource",
    "SoundWater",
    "SoundingRow",
    "Tone",
    "absorption",
    "ambient_bands",
    "ambient_parts",
    "auditory_group",
    "groups_of",
    "level",
    "machine_tones",
    "passing_frequencies",
    "propagation_loss",
    "scaled_source",
    "sound_speed",
    "sounding_rows",
    "turbulence_source",
    "weighting",
]
