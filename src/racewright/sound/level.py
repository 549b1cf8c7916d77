"""Sound level of a machine: source, way, ambient, hearing, thresholds, and one uncertainty."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.door import numbers, row, within
from racewright.errors import InputError
from racewright.remark import Remark
from racewright.safety import safety_basis
from racewright.sound.absorption import absorption
from racewright.sound.ambient import SOURCE as WENZ
from racewright.sound.ambient import ambient_bands
from racewright.sound.bands import level_sum
from racewright.sound.hearing import AuditoryGroup, auditory_group, pressure_thresholds
from racewright.sound.level_result import SoundLevel, UncertaintyPart
from racewright.sound.propagation import FARTHEST
from racewright.sound.published import published_levels
from racewright.sound.reach import Way
from racewright.sound.source import SoundSource
from racewright.sound.thresholds import group_ranges, pressure_ranges
from racewright.sound.water_sound import SoundWater

Floats = NDArray[np.float64]

DAY = 86400.0
"""[s]"""
ALL_2024 = tuple(("2024", name) for name in ("LF", "HF", "VHF", "PW", "OW"))
"""Every group of the later edition."""


def level(
    source: SoundSource,
    distance: ArrayLike,
    water: SoundWater,
    *,
    spreading: str = "practical",
    water_depth: float | None = None,
    absorbed: str = "ainslie_mccolm",
    groups: Sequence[tuple[str, str]] = ALL_2024,
    duration: float = DAY,
    ambient: ArrayLike | None = None,
    wind_speed: float = 5.0,
    shipping: float = 0.5,
    way_uncertainty: float | None = None,
    cavitates: bool = False,
) -> SoundLevel:
    """Levels received at distances, by band, beside the ambient noise and against thresholds.

    Tones are added to the band that they fall in. The machine is a point; an animal stays where it is for the
    duration; bed, surface and bubbles are in the law of spreading only.

    Parameters
    ----------
    source : SoundSource
        From `turbulence_source`, `scaled_source`, or stated.
    distance : array_like, shape (m,)
        1 to 1e6 [m].
    water : SoundWater
    spreading : str
        'spherical', 'practical', 'cylindrical' or 'mixed'; practical by default (common practice).
    water_depth : float, optional
        For the mixed law [m].
    absorbed : str
        'ainslie_mccolm' or 'francois_garrison'.
    groups : sequence of (edition, name)
        Auditory groups, such as ('2024', 'VHF'); all of 2024 by default. A name without an edition is refused.
    duration : float
        Of the exposure, 1 to 1e7; a day by default, for which the thresholds are stated [s].
    ambient : array_like, shape (n,), optional
        Measured band levels without the machine; without it curves of the open sea [dB re 1 uPa].
    wind_speed : float
        For those curves; 5 by default (own choice) [m/s].
    shipping : float
        The same, 0 to 1; 0.5 by default (middle of the range) [-].
    way_uncertainty : float, optional
        Half width of the loss on the way at the farthest distance, from a measurement there; without it 5 lg r, the
        distance to the neighbouring law [dB].
    cavitates : bool
        Whether blades cavitate: said, not computed.

    Returns
    -------
    SoundLevel

    Raises
    ------
    InputError
        A value out of range, a group without an edition, unknown laws, ambient levels for other bands.
    """
    way_out = row("distance", distance, 1.0, FARTHEST, "m")
    time = within("duration", duration, 1.0, 1e7, "s", DAY)
    chosen = [_group(one) for one in groups]
    way = Way(spreading, water_depth, absorption(absorbed, source.frequency, water))
    levels = _with_tones(source)
    received = way.received(levels, way_out)
    around, told = _ambient(source.frequency, ambient, wind_speed, shipping)
    parts = _parts(source, float(way_out.max()), way_uncertainty)
    total = math.hypot(*(part.half_width for part in parts))
    ranges = [one for group in chosen for one in group_ranges(group, source.frequency, levels, way, time, total)]
    ranges += pressure_ranges(pressure_thresholds(), levels, way, total)
    return SoundLevel(
        source=source.name,
        frequency=source.frequency,
        source_level=source.level,
        tones=source.tones,
        distance=way_out,
        received=received,
        broadband_source=float(level_sum(levels)),
        broadband=level_sum(received),
        ambient=around,
        ambient_basis=told,
        excess=received - around,
        audible_distance=_audible(levels, around, way),
        duration=time,
        spreading=spreading,
        absorbed=absorbed,
        thresholds=tuple(ranges),
        uncertainty=total,
        uncertainty_parts=parts,
        published=published_levels(),
        remarks=(*source.remarks, *_remarks(ambient is None, cavitates, source)),
        safety=(
            source.safety,
            safety_basis("sound", told, "1962" if ambient is None else "-", "see basis"),
            *dict.fromkeys(one.safety for one in ranges),
        ),
    )


def _group(one: tuple[str, str]) -> AuditoryGroup:
    if isinstance(one, str) or len(one) != 2:
        raise InputError(
            f"the auditory group {one!r} wants its edition: a pair such as ('2024', 'VHF'). The same letters mean "
            "other animals in another edition.",
            key="groups",
        )
    return auditory_group(*one)


def _with_tones(source: SoundSource) -> Floats:
    """Band levels with the tones added to the nearest band; a tone below or above all bands is left out."""
    power = 10.0 ** (source.level / 10.0)
    middle = np.log10(source.frequency)
    for tone in source.tones:
        if tone.level is None or tone.frequency <= 0.0:
            continue
        away = np.abs(middle - math.log10(tone.frequency))
        if away.min() <= 0.05 + 1e-9:
            power[int(np.argmin(away))] += 10.0 ** (tone.level / 10.0)
    return np.asarray(10.0 * np.log10(power), dtype=np.float64)


def _ambient(frequency: Floats, given: ArrayLike | None, wind_speed: float, shipping: float) -> tuple[Floats, str]:
    if given is None:
        return ambient_bands(
            frequency, wind_speed, shipping
        ), f"wind {wind_speed:g} m/s, shipping {shipping:g}: {WENZ}"
    found = numbers("ambient", given, -100.0, 300.0, "dB re 1 uPa")
    if found.shape != frequency.shape:
        raise InputError(
            f"ambient holds {found.size} levels for {frequency.size} bands; give one each", key="ambient"
        )
    return found, "measured by the user"


def _audible(levels: Floats, around: Floats, way: Way) -> float:
    """Farthest at which any band stands at the ambient level of that band."""
    alone = [
        Way(way.spreading, way.water_depth, way.absorption[i : i + 1]).reach(levels[i : i + 1], float(around[i]))
        for i in range(levels.size)
    ]
    return max(alone)


def _parts(source: SoundSource, farthest: float, given: float | None) -> tuple[UncertaintyPart, ...]:
    way = 5.0 * math.log10(farthest)
    basis = "law of spreading: 5 lg r, as far as the neighbouring law"
    if given is not None:
        way, basis = within("way_uncertainty", given, 0.0, 60.0, "dB", 5.0), "stated by the user"
    return (
        UncertaintyPart("source", source.uncertainty_basis, source.uncertainty),
        UncertaintyPart("way", f"{basis}, at {farthest:g} m", way),
    )


def _remarks(curves: bool, cavitates: bool, source: SoundSource) -> tuple[Remark, ...]:
    found = [
        Remark(
            "note",
            "Measure as IEC TS 62600-40 asks (recalled): calibrated, preferably drifting recorders, ranges and "
            "bearings, current, power, background, band levels with and without the machine, flow noise taken off.",
            "sound",
        )
    ]
    if curves:
        found.append(
            Remark(
                "caution",
                "Ambient noise is from curves of the open sea; rivers and tidal races want a measurement.",
                "ambient",
            )
        )
    if cavitates:
        found.append(
            Remark(
                "warning",
                "Blades cavitate at this point: cavitation is louder than all that is counted here.",
                "cavitation",
            )
        )
    lost = [
        tone.name
        for tone in source.tones
        if tone.level is not None
        and np.min(np.abs(np.log10(source.frequency) - np.log10(max(tone.frequency, 1e-9)))) > 0.05 + 1e-9
    ]
    if lost:
        found.append(Remark("note", f"Below or between the bands, not counted in them: {', '.join(lost)}.", "tones"))
    return tuple(found)
