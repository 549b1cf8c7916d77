"""What is found of a campaign: runs reduced, walls taken off, set against prediction, fouling, debris."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.remark import Remark
from racewright.trials.blockage_result import Blockage
from racewright.trials.doses import DoseRow
from racewright.trials.fouling import Fouling
from racewright.trials.result import Reduction
from racewright.trials.rig import Rig


@dataclass(frozen=True)
class RunReduced:
    """One run reduced.

    Attributes
    ----------
    run : str
        Its name.
    rig : Rig
        Model and channel of this run.
    reduction : Reduction
    """

    run: str
    rig: Rig
    reduction: Reduction


@dataclass(frozen=True)
class CampaignReduced:
    """All runs of a campaign.

    Attributes
    ----------
    runs : tuple of RunReduced
        In order of their names.
    remarks : tuple of Remark
        What is missing of uncertainty, and which channel is to blame.
    """

    runs: tuple[RunReduced, ...]
    remarks: tuple[Remark, ...]


@dataclass(frozen=True)
class Corrected:
    """One reading with the channel's walls and surface taken off.

    Attributes
    ----------
    run : str
    number : int
        Of the reading in its run, from 1 [-].
    blockage : Blockage
        Every method side by side, and the one to quote.
    stream_ratio : float or None
        Equivalent open stream over the channel's by the preferred method; None where none answers and for the record,
        which is taken to no blockage at the channel's own speed and knows of no other [-].
    power_coefficient, thrust_coefficient, tip_speed_ratio : float or None
        In the open stream by the preferred method [-].
    power_uncertainty, thrust_uncertainty : float or None
        Standard: the reading's own, with half the spread of the valid methods over root 3, and what the band of a
        predicted rotor load makes of the correction [-].
    """

    run: str
    number: int
    blockage: Blockage
    stream_ratio: float | None
    power_coefficient: float | None
    thrust_coefficient: float | None
    tip_speed_ratio: float | None
    power_uncertainty: float | None
    thrust_uncertainty: float | None


@dataclass(frozen=True)
class Compared:
    """One corrected reading beside the prediction of the as-built machine at the same stream and rotor speed.

    Attributes
    ----------
    run : str
    number : int
        Of the reading in its run, from 1 [-].
    region : str
        'below', 'near' or 'above' the design tip-speed ratio.
    stream_speed, rotor_speed : float
        Of the equivalent open stream [m/s]; of the test [rad/s]: so the Reynolds number is the test's too.
    tip_speed_ratio : float
        [-]
    measured_power, measured_thrust : float
        CP, CT corrected [-].
    power_uncertainty, thrust_uncertainty : float
        Standard [-].
    predicted_power, predicted_low, predicted_high : float or None
        CP with its band; None where the prediction has no answer [-].
    predicted_thrust : float or None
        CT of the force that the balance carries [-].
    power_residual, thrust_residual : float or None
        Measured less predicted over predicted [-].
    inside : bool or None
        Whether the interval of the measured CP at the stated confidence reaches the predicted band, wherever the
        value itself lies.
    chord_reynolds : float or None
        Of the blades, mean of the sections, as predicted [-].
    reason : str
        Why there is no prediction; empty where there is.
    """

    run: str
    number: int
    region: str
    stream_speed: float
    rotor_speed: float
    tip_speed_ratio: float
    measured_power: float
    measured_thrust: float
    power_uncertainty: float
    thrust_uncertainty: float
    predicted_power: float | None
    predicted_low: float | None
    predicted_high: float | None
    predicted_thrust: float | None
    power_residual: float | None
    thrust_residual: float | None
    inside: bool | None
    chord_reynolds: float | None
    reason: str

    @property
    def value_within(self) -> bool | None:
        """Whether the measured CP itself lies within the predicted band, whatever its interval; None without one."""
        if self.predicted_low is None or self.predicted_high is None:
            return None
        return self.predicted_low <= self.measured_power <= self.predicted_high


@dataclass(frozen=True)
class Region:
    """Residuals of one region of loads; the windows of a run at one tip-speed ratio are one load.

    Attributes
    ----------
    region : str
        'below', 'near' or 'above' the design tip-speed ratio.
    loads, inside : int
        With a prediction; of those, with every reading's interval reaching its predicted band, as `inside` of a
        reading [-].
    readings : int
        Behind the loads [-].
    power_residual, thrust_residual : float
        Mean over the loads, measured less predicted over predicted [-].
    power_spread : float
        Standard deviation of the power's residuals of the loads, 0 for one load [-].
    """

    region: str
    loads: int
    inside: int
    readings: int
    power_residual: float
    thrust_residual: float
    power_spread: float


@dataclass(frozen=True)
class PredictionCheck:
    """Test against prediction.

    Attributes
    ----------
    rows : tuple of Compared
    regions : tuple of Region
    remarks : tuple of Remark
    """

    rows: tuple[Compared, ...]
    regions: tuple[Region, ...]
    remarks: tuple[Remark, ...]


@dataclass(frozen=True)
class RunFouling:
    """What one run at one load shows of fouling.

    Attributes
    ----------
    run : str
    found : Fouling or None
        None where it could not be looked for.
    reason : str
        Why not; empty otherwise.
    start, end : float
        The stretch between its tares [s].
    cleaned : float or None
        When the machine was cleaned, as the scheme says [s].
    """

    run: str
    found: Fouling | None
    reason: str
    start: float
    end: float
    cleaned: float | None

    def fouls(self, start: float, end: float) -> bool:
        """Whether a reading from `start` to `end` [s] is of the fouled machine.

        Clean are those that end before the loss begins, and those after a cleaning that gave all of it back within
        its interval.
        """
        one = self.found
        if one is None or not one.found or end <= one.onset:
            return False
        whole = one.recovered_high is not None and one.recovered_high >= one.loss
        return not (whole and self.cleaned is not None and start >= self.cleaned)


@dataclass(frozen=True)
class Sensor:
    """One channel as the scheme names it (untrusted text).

    Attributes
    ----------
    name, column, measures, unit, part, source : str
    rate : float
        [Hz]
    """

    name: str
    column: str
    measures: str
    unit: str
    part: str
    source: str
    rate: float


@dataclass(frozen=True)
class TrialsFindings:
    """A campaign computed.

    Attributes
    ----------
    name, description : str
        Table name and the user's words (untrusted).
    invented : bool
    surface : str
        'free' or 'lid'.
    thrust_on : str
        'rotor' or 'whole machine'.
    confidence : float
        Of every interval of a reading [-].
    sensors : tuple of Sensor
    campaign : CampaignReduced
    corrected : tuple of Corrected
        One for each reading, in order.
    check : PredictionCheck
    foulings : tuple of RunFouling
    doses : tuple of DoseRow
    remarks : tuple of Remark
    """

    name: str
    description: str
    invented: bool
    surface: str
    thrust_on: str
    confidence: float
    sensors: tuple[Sensor, ...]
    campaign: CampaignReduced
    corrected: tuple[Corrected, ...]
    check: PredictionCheck
    foulings: tuple[RunFouling, ...]
    doses: tuple[DoseRow, ...]
    remarks: tuple[Remark, ...]

    @property
    def frontal_share(self) -> float:
        """Rotor annulus over the duct's circle: a coefficient on the first times this stands on the other [-]."""
        rig = self.campaign.runs[0].rig
        return rig.annulus_area / (math.pi * rig.blocked_radius**2)
