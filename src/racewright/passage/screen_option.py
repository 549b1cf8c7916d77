"""The machine with a screen, clean and fouled, beside the machine without."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from racewright.passage.screen import Screen, ScreenLoss, fill_time, screen_loss
from racewright.stage.operating_point import solve_stage
from racewright.stage.result import OperatingPoint
from racewright.stage.stage_ready import Stage


@dataclass(frozen=True, slots=True)
class ScreenOption:
    """What a screen takes.

    Attributes
    ----------
    without, clean, fouled : OperatingPoint
        At one stream speed and rotor speed.
    clean_loss, fouled_loss : ScreenLoss
    clean_power_share, fouled_power_share : float
        Shaft power lost over that without a screen [-].
    fill_time : float or None
        Until the fouled state, None when nothing was said of the debris that arrives [s].
    """

    without: OperatingPoint
    clean: OperatingPoint
    fouled: OperatingPoint
    clean_loss: ScreenLoss
    fouled_loss: ScreenLoss
    clean_power_share: float
    fouled_power_share: float
    fill_time: float | None


def screen_option(
    stage: Stage,
    screen: Screen,
    stream_speed: float,
    rotor_speed: float,
    *,
    closed_share: float = 0.3,
    arriving_area: float | None = None,
) -> ScreenOption:
    """Solve the stage without a screen, with a clean one, and with one that is closed in part.

    Parameters
    ----------
    stage : Stage
        From `ready_stage`.
    screen : Screen
    stream_speed, rotor_speed : float
        As `operating_point` [m/s], [rad/s].
    closed_share : float
        Of the gaps in the fouled state, 0 to 0.95; 0.3 by default (own choice) [-].
    arriving_area : float, optional
        As in `fill_time` [m2/m3].

    Raises
    ------
    InputError, NoAnswerError
        As `operating_point` and `screen_loss`.
    """
    area = float(np.sum(stage.annulus.area))
    bare = solve_stage(stage, stream_speed, rotor_speed)
    found = []
    for share in (0.0, closed_share):
        resistance = screen_loss(screen, bare.flow_rate, area, closed_share=share).resistance
        point = solve_stage(stage, stream_speed, rotor_speed, resistance=resistance)
        found.append((point, screen_loss(screen, point.flow_rate, area, closed_share=share)))
    (clean, first), (fouled, second) = found
    lost = [1.0 - one.shaft_power / bare.shaft_power if bare.shaft_power > 0.0 else 0.0 for one in (clean, fouled)]
    time = None
    if arriving_area is not None and closed_share > 0.0:
        time = fill_time(screen, clean.flow_rate, arriving_area, closed_share)
    return ScreenOption(bare, clean, fouled, first, second, lost[0], lost[1], time)
