"""The stage: vane row and rotor, their operating points, maps, states and bands."""

from racewright.stage.bands import PowerBands, power_bands
from racewright.stage.cavitation import cavitation_number
from racewright.stage.cover import drawing_air_cover
from racewright.stage.curves import power_curve, speed_ratio_curve
from racewright.stage.design import design_rows
from racewright.stage.meanline import MeanLine, axial_meanline, meanline
from racewright.stage.operating_point import operating_point
from racewright.stage.performance_map import PerformanceMap, performance_map
from racewright.stage.stage_ready import ready_stage
from racewright.stage.states import machine_states

__all__ = [
    "MeanLine",
    "PerformanceMap",
    "PowerBands",
    "axial_meanline",
    "cavitation_number",
    "design_rows",
    "drawing_air_cover",
    "machine_states",
    "meanline",
    "operating_point",
    "performance_map",
    "power_bands",
    "power_curve",
    "ready_stage",
    "speed_ratio_curve",
]
