"""The dataclasses that values of the trials' nodes are made of."""

from __future__ import annotations

from racewright.ledger.trials_findings import (
    CampaignReduced,
    Compared,
    Corrected,
    PredictionCheck,
    Region,
    RunFouling,
    RunReduced,
)
from racewright.trials.blockage_result import Blockage, ChannelReading, Estimate, MethodSpread
from racewright.trials.coefficients import Coefficients
from racewright.trials.doses import DoseCard, DoseRow
from racewright.trials.flags import FlagCount
from racewright.trials.fouling import Fouling
from racewright.trials.result import ChannelMean, Measured, Reading, Reduction, Refusal, Source
from racewright.trials.rig import Rig
from racewright.trials.ripple import Peak, Ripple
from racewright.trials.series import Gap, Series
from racewright.trials.unbounded_record import UnboundedRecord
from racewright.trials.zeros import Zero

TRIALS_CLASSES: tuple[type, ...] = (
    Blockage, MethodSpread, CampaignReduced, ChannelMean, ChannelReading, Coefficients, Compared, Corrected, DoseCard,
    DoseRow, Estimate, FlagCount, Fouling, Gap, Measured, Peak, PredictionCheck, Reading, Reduction, Refusal, Region,
    Rig, Ripple, RunFouling, RunReduced, Series, Source, UnboundedRecord, Zero,
)  # fmt: skip
