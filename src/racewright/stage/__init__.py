"""The stage: vane row and rotor, their operating points and curves."""

from racewright.stage.cover import drawing_air_cover
from racewright.stage.curves import power_curve, speed_ratio_curve
from racewright.stage.design import design_rows
from racewright.stage.meanline import MeanLine, axial_meanline, meanline
from racewright.stage.operating_point import operating_point

__all__ = [
    "MeanLine",
    "axial_meanline",
    "design_rows",
    "drawing_air_cover",
    "meanline",
    "operating_point",
    "power_curve",
    "speed_ratio_curve",
]
