"""What a sound level returns."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.remark import Remark
from racewright.safety import SafetyBasis
from racewright.sound.published import PublishedLevel
from racewright.sound.source import Tone

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class ThresholdRange:
    """How far from the machine a threshold is reached.

    Attributes
    ----------
    title : str
        Whom it protects, and from what.
    edition : str
        Of the threshold.
    group : str
        Auditory group, '' for an unweighted one.
    threshold : float
        [dB re 1 uPa2 s] for an exposure, [dB re 1 uPa] for a pressure.
    reference : str
        Which of the two.
    level_at_one_metre : float
        The same quantity at 1 m [dB].
    distance, distance_low, distance_high : float
        Where it falls to the threshold, at the source level and at both ends of the uncertainty; 1 where it is below
        the threshold at 1 m already, 1e6 where it is above it that far [m].
    words : str
        The distance in a sentence.
    safety : SafetyBasis
    """

    title: str
    edition: str
    group: str
    threshold: float
    reference: str
    level_at_one_metre: float
    distance: float
    distance_low: float
    distance_high: float
    words: str
    safety: SafetyBasis


@dataclass(frozen=True, slots=True)
class UncertaintyPart:
    """One part of the uncertainty.

    Attributes
    ----------
    name, basis : str
    half_width : float
        About 95 % [dB].
    """

    name: str
    basis: str
    half_width: float


@dataclass(frozen=True, slots=True)
class SoundLevel:
    """Levels of a machine at m distances in n bands.

    Attributes
    ----------
    source : str
        Where the source level comes from.
    frequency : ndarray, shape (n,)
        Middle frequencies of the bands [Hz].
    source_level : ndarray, shape (n,)
        [dB re 1 uPa m]
    tones : tuple of Tone
    distance : ndarray, shape (m,)
        [m]
    received : ndarray, shape (m, n)
        Band levels [dB re 1 uPa].
    broadband_source : float
        All bands and tones [dB re 1 uPa m].
    broadband : ndarray, shape (m,)
        The same received [dB re 1 uPa].
    ambient : ndarray, shape (n,)
        Band levels without the machine [dB re 1 uPa].
    ambient_basis : str
    excess : ndarray, shape (m, n)
        Received less ambient [dB].
    audible_distance : float
        Farthest at which any band or tone stands at its band's ambient level; 1 to 1e6 [m].
    duration : float
        Of the exposures [s].
    spreading, absorbed : str
        Laws used.
    thresholds : tuple of ThresholdRange
    uncertainty : float
        One half width for every level here, about 95 %; for the farthest distance asked [dB].
    uncertainty_parts : tuple of UncertaintyPart
    published : tuple of PublishedLevel
        What others found at other machines, to set these figures beside.
    remarks : tuple of Remark
    safety : tuple of SafetyBasis
    """

    source: str
    frequency: Floats
    source_level: Floats
    tones: tuple[Tone, ...]
    distance: Floats
    received: Floats
    broadband_source: float
    broadband: Floats
    ambient: Floats
    ambient_basis: str
    excess: Floats
    audible_distance: float
    duration: float
    spreading: str
    absorbed: str
    thresholds: tuple[ThresholdRange, ...]
    uncertainty: float
    uncertainty_parts: tuple[UncertaintyPart, ...]
    published: tuple[PublishedLevel, ...]
    remarks: tuple[Remark, ...]
    safety: tuple[SafetyBasis, ...]
