"""Pull that brings a machine out against the current."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.place.guard import within
from racewright.remark import Remark

RECOVERY = Remark(
    "warning",
    "A steady pull for planning only: jerks, a wedged log, suction of mud and a line that parts come on top. Nobody "
    "stands in line with a loaded rope or in the water above the machine; winches, lines and boats are chosen by "
    "people licensed for it, by the local code.",
    "recovery",
)


@dataclass(frozen=True, slots=True)
class RecoveryPull:
    """Pull along the line.

    Attributes
    ----------
    pull : float
        Never below 0 [N].
    drag, debris_drag : float
        Of machine and debris, against the water that passes them [N].
    weight_part, friction_part : float
        Of the weight under water along the slope, and of rubbing on it [N].
    power : float
        Pull x hauling speed [W].
    greatest_speed : float or None
        Stream speed at which the pull reaches the winch's; None without a winch, or when even still water asks more
        [m/s].
    remarks : tuple of Remark
    """

    pull: float
    drag: float
    debris_drag: float
    weight_part: float
    friction_part: float
    power: float
    greatest_speed: float | None
    remarks: tuple[Remark, ...]


def recovery_pull(
    drag_area: float,
    stream_speed: float,
    water_density: float,
    *,
    hauling_speed: float = 0.0,
    debris_drag_area: float = 0.0,
    weight_in_water: float = 0.0,
    slope: float = 0.0,
    friction: float = 0.0,
    winch: float | None = None,
) -> RecoveryPull:
    """Pull to haul a machine upstream, in mid-water or up a slope.

    Drag = 1/2 rho (CD A) (U + hauling speed)^2; on the bed, weight x (sin slope + friction cos slope).

    Parameters
    ----------
    drag_area : float
        Drag coefficient x area of the machine as it is hauled, >= 0 [m2].
    stream_speed, hauling_speed : float
        >= 0, the machine hauled against the stream [m/s].
    water_density : float
        900 to 1100 [kg/m3].
    debris_drag_area : float
        Drag coefficient x area of what hangs in it, >= 0; default 0: say what you expect [m2].
    weight_in_water : float
        On the bed; a floating machine has 0 [N].
    slope : float
        Of the way up, 0 to pi/2; pi/2 is a lift straight up [rad].
    friction : float
        Coefficient of rubbing on the bed, 0 to 3 [-].
    winch : float, optional
        Pull that is at hand, > 0 [N].

    Raises
    ------
    InputError
        A number out of its range or not finite.
    """
    area = within("the drag area", drag_area, 0.0, 1e5, "m2")
    debris = within("the drag area of debris", debris_drag_area, 0.0, 1e5, "m2")
    speed = within("the stream speed", stream_speed, 0.0, 20.0, "m/s")
    haul = within("the hauling speed", hauling_speed, 0.0, 10.0, "m/s")
    dynamic = 0.5 * within("the density of water", water_density, 900.0, 1100.0, "kg/m3") * (speed + haul) ** 2
    weight = within("the weight under water", weight_in_water, 0.0, 1e9, "N")
    angle = within("the slope", slope, 0.0, 0.5 * math.pi, "rad")
    along = weight * math.sin(angle)
    rubbing = weight * math.cos(angle) * within("the friction", friction, 0.0, 3.0, "-")
    pull = dynamic * (area + debris) + along + rubbing
    told, greatest = [RECOVERY], None
    if winch is not None:
        left = within("the winch's pull", winch, 1e-3, 1e9, "N") - along - rubbing
        if left >= 0.0 and area + debris > 0.0:
            reached = math.sqrt(left / (0.5 * water_density * (area + debris))) - haul
            greatest = reached if reached >= 0.0 else None
        if pull > winch:
            text = f"{pull:.4g} N are wanted and {winch:.4g} N at hand: wait for slower water, or haul with more."
            told.append(Remark("warning", text, "winch"))
    return RecoveryPull(pull, dynamic * area, dynamic * debris, along, rubbing, pull * haul, greatest, tuple(told))
