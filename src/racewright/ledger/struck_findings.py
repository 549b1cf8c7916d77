"""What is found of strikes: one log at a time, and a year of them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.holding.log_exceedance import LogExceedance
from racewright.holding.strike_estimates import CodeEstimate
from racewright.holding.strike_figure import SafetyFigure
from racewright.holding.strike_fixed import HeldRow
from racewright.holding.strike_outcome import FrictionSensitivity
from racewright.holding.strike_two_phase import TwoPhase
from racewright.remark import Remark

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class StruckLog:
    """A log that strikes, and what holds the machine.

    Attributes
    ----------
    name : str
    log_mass, machine_mass : float
        Of the log, and of the machine with the water that moves along the stream with it [kg].
    stream_speed, tether_stiffness, pretension : float
        [m/s], along the stream [N/m], [N]
    capacity : float or None
        Force along the stream at which the first link parts [N].
    water : str
        The depth of water it is asked in: of those in which the log reaches the machine the fastest, else the one in
        which it passes over with the least room.
    depth : float
        Of that water [m].
    over : float or None
        Room between the log and the machine beneath it; None where it reaches the machine's depth [m].
    """

    name: str
    log_mass: float
    machine_mass: float
    stream_speed: float
    tether_stiffness: float
    pretension: float
    capacity: float | None
    water: str
    depth: float
    over: float | None


@dataclass(frozen=True)
class StruckBy(StruckLog):
    """One log that strikes.

    Attributes
    ----------
    phases : TwoPhase or None
        None where the log misses the machine, beside it or over it.
    frictions : FrictionSensitivity
        Without outcomes where it passes over.
    beside_fixed : tuple of HeldRow
        On tethers, and rigidly fixed.
    estimates : tuple of CodeEstimate
        Code forms side by side.
    """

    phases: TwoPhase | None
    frictions: FrictionSensitivity
    beside_fixed: tuple[HeldRow, ...]
    estimates: tuple[CodeEstimate, ...]


@dataclass(frozen=True)
class YearChances:
    """What a year of logs may bring, level by level; a log that jams counts as passing every level.

    Attributes
    ----------
    encounters : float
        Expected [1/yr].
    level : ndarray, shape (k,)
        [N]
    first_low, first_high, first_high_upper : ndarray, shape (k,)
        Chance that a first blow passes the level, softest and stiffest contact, upper limit of the latter [-].
    slow, slow_low, slow_high : ndarray, shape (k,)
        The same for the slow line tension, with its limits [-].
    parting, parting_low, parting_high : float or None
        Chance that the first link parts [-].
    figures : tuple of SafetyFigure
        Forces of one year in so many.
    strikes : int
        Logs drawn [-].
    confidence : float
        Of the limits [-].
    remarks : tuple of Remark
    """

    encounters: float
    level: Floats
    first_low: Floats
    first_high: Floats
    first_high_upper: Floats
    slow: Floats
    slow_low: Floats
    slow_high: Floats
    parting: float | None
    parting_low: float | None
    parting_high: float | None
    figures: tuple[SafetyFigure, ...]
    strikes: int
    confidence: float
    remarks: tuple[Remark, ...]


@dataclass(frozen=True)
class StruckYear(YearChances):
    """A year of logs.

    Attributes
    ----------
    capacity : float or None
        Of the weak link along the stream; without one the chance of parting is that of the line nearest to its
        strength, and None where no strength is known either [N].
    drawn : LogExceedance
        Every log drawn, for the curves.
    """

    capacity: float | None
    drawn: LogExceedance
