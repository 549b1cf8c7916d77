"""Tests of models: a logger's record to readings, walls and surface taken off, fouling, debris, invented records."""

from __future__ import annotations

from racewright.trials.blockage_compare import blockage
from racewright.trials.calibration import Calibration, exact, fit_calibration
from racewright.trials.channel import Channel, Chunk, Span
from racewright.trials.coefficients import Coefficients, coefficients
from racewright.trials.cube_mean import cube_mean, strip_areas
from racewright.trials.doses import DoseCard, DoseRow, Piece, dose_table
from racewright.trials.exponent import torque_exponent
from racewright.trials.fouling import Fouling, fouling
from racewright.trials.froude import FroudeScale, froude_scale
from racewright.trials.reduce import reduce
from racewright.trials.result import Measured, Reading, Reduction, Refusal
from racewright.trials.rig import Rig
from racewright.trials.settings import Settings
from racewright.trials.unbounded_record import blockage_record

__all__ = [
    "Calibration",
    "Channel",
    "Chunk",
    "Coefficients",
    "DoseCard",
    "DoseRow",
    "Fouling",
    "FroudeScale",
    "Measured",
    "Piece",
    "Reading",
    "Reduction",
    "Refusal",
    "Rig",
    "Settings",
    "Span",
    "blockage",
    "blockage_record",
    "coefficients",
    "cube_mean",
    "dose_table",
    "exact",
    "fit_calibration",
    "fouling",
    "froude_scale",
    "reduce",
    "strip_areas",
    "torque_exponent",
]
