"""What the reduction returns."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.remark import Remark
from racewright.trials.coefficients import Coefficients
from racewright.trials.flags import FlagCount
from racewright.trials.ripple import Ripple
from racewright.trials.series import Series
from racewright.trials.zeros import Zero
from racewright.water import Water

Floats = NDArray[np.float64]
NAMES = ("power_coefficient", "torque_coefficient", "thrust_coefficient", "tip_speed_ratio")
"""Order of the four coefficients wherever they stand in a row."""
OF_THE_RUN = ": zero"
"""How the name of a systematic source ends that is of its run alone."""
MEANS = ("stream_speed", "torque", "rotor_speed", "thrust")
"""Order of the four means wherever they stand in a row."""


@dataclass(frozen=True)
class Source:
    """One source of uncertainty and what it does to the coefficients.

    Attributes
    ----------
    name : str
    kind : {'random', 'systematic'}
        'random' falls with a longer window, 'systematic' does not.
    effect : ndarray, shape (4,)
        Signed relative standard uncertainty of each coefficient, in the order of `NAMES`; unsigned for 'random' [-].
    degrees_of_freedom : ndarray, shape (4,)
        [-]
    """

    name: str
    kind: str
    effect: Floats
    degrees_of_freedom: Floats

    @property
    def shared(self) -> bool:
        """Whether other runs have the same error: calibrations and sizes, not scatter and the zero of a run."""
        return self.kind == "systematic" and not self.name.endswith(OF_THE_RUN)


@dataclass(frozen=True)
class Measured:
    """A measured coefficient with its interval.

    Attributes
    ----------
    value : float
        Best estimate: as defined, with the cube mean corrected for turbulence that the machine does not follow [-].
    as_defined : float
        From the plain means, stream speed the cube mean [-].
    low, high : float
        Interval at the stated confidence [-].
    standard_uncertainty : float
        Combined [-].
    random, systematic : float
        Its two parts [-].
    degrees_of_freedom : float
        Effective, Welch and Satterthwaite [-].
    """

    value: float
    as_defined: float
    low: float
    high: float
    standard_uncertainty: float
    random: float
    systematic: float
    degrees_of_freedom: float


@dataclass(frozen=True)
class ChannelMean:
    """One channel over one window.

    Attributes
    ----------
    name : str
    mean : float
        Of the good readings, zero taken off [SI unit of the channel].
    with_spikes : float
        The same with the readings flagged as spikes kept: what flagging has changed [SI unit of the channel].
    deviation : float
        Standard deviation of the readings, the sensor's own noise included [SI unit of the channel].
    zero : float
        What was taken off [SI unit of the channel].
    readings : int
        All of them [-].
    flagged : float
        Share of them that was flagged [-].
    """

    name: str
    mean: float
    with_spikes: float
    deviation: float
    zero: float
    readings: int
    flagged: float


@dataclass(frozen=True)
class Reading:
    """One steady window reduced.

    Attributes
    ----------
    start, end : float
        After the record's start [s].
    stream_speed, mean_speed : float
        Cube mean and plain mean, weighted over the probes [m/s].
    turbulence_intensity : float
        Standard deviation of the speed over its mean, the probe's own noise taken out, drift included [-].
    torque, rotor_speed, thrust : float
        Means [N m], [rad/s], [N].
    power : float
        Mean of torque x rotor speed [W].
    temperature : float
        Of the water [K].
    depth : float
        [m]
    water : Water
    numbers : Coefficients
        All dimensionless numbers, as defined.
    power_coefficient, torque_coefficient, thrust_coefficient, tip_speed_ratio : Measured
    covariance : ndarray, shape (4, 4)
        Of the relative errors of the four coefficients, all sources, in the order of `NAMES` [-].
    mean_covariance : ndarray, shape (4, 4)
        Random covariance of the means in the order of `MEANS`, memory counted [products of their SI units].
    effective_count : ndarray, shape (4,)
        Independent values behind each of those means [-].
    sources : tuple of Source
        The budget.
    ripple : Ripple
    channels : tuple of ChannelMean
        Those with a good reading.
    remarks : tuple of Remark
    """

    start: float
    end: float
    stream_speed: float
    mean_speed: float
    turbulence_intensity: float
    torque: float
    rotor_speed: float
    thrust: float
    power: float
    temperature: float
    depth: float
    water: Water
    numbers: Coefficients
    power_coefficient: Measured
    torque_coefficient: Measured
    thrust_coefficient: Measured
    tip_speed_ratio: Measured
    covariance: Floats
    mean_covariance: Floats
    effective_count: Floats
    sources: tuple[Source, ...]
    ripple: Ripple
    channels: tuple[ChannelMean, ...]
    remarks: tuple[Remark, ...]


@dataclass(frozen=True)
class Refusal:
    """A stretch that gave no reading.

    Attributes
    ----------
    start, end : float
        After the record's start [s].
    reasons : tuple of str
        Why, for the window that began at `start`.
    """

    start: float
    end: float
    reasons: tuple[str, ...]


@dataclass(frozen=True)
class Reduction:
    """A record reduced.

    Attributes
    ----------
    readings : tuple of Reading
        In order of time.
    refusals : tuple of Refusal
        Every stretch without a reading, with the reasons.
    zeros : tuple of Zero
        The tares.
    flags : tuple of FlagCount
        One entry per channel over the whole record.
    duration : float
        Of the record as far as whole cells go [s].
    series : Series
        The whole record, one row a block.
    remarks : tuple of Remark
    """

    readings: tuple[Reading, ...]
    refusals: tuple[Refusal, ...]
    zeros: tuple[Zero, ...]
    flags: tuple[FlagCount, ...]
    duration: float
    series: Series
    remarks: tuple[Remark, ...]
