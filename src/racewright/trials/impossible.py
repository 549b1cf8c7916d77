"""Coefficients that no machine has, and the channel that is likely to blame."""

from __future__ import annotations

from collections.abc import Sequence

from racewright.remark import Remark
from racewright.trials.channel import Channel
from racewright.trials.coefficients import Coefficients

MOST_POWER = 1.5
"""CP on the rotor annulus beyond which a channel must be wrong, also in a duct. Own choice."""
MOST_THRUST = 4.0
"""The same of CT, duct's drag and blockage counted. Own choice."""
RATIOS = (0.05, 20.0)
"""Tip-speed ratios that are believed of a turning rotor. Own choice."""


def impossible(numbers: Coefficients, channels: Sequence[Channel]) -> list[Remark]:
    """A warning of what cannot be, with the channels to blame.

    Where tip-speed ratio, thrust and power are off together the stream speed is to blame, which stands in all three;
    else each has its own channel.
    """
    power = abs(numbers.power_coefficient) > MOST_POWER
    thrust = abs(numbers.thrust_coefficient) > MOST_THRUST
    ratio = not RATIOS[0] <= abs(numbers.tip_speed_ratio) <= RATIOS[1]
    told = [
        f"{name} {value:.3g}"
        for off, name, value in (
            (power, "CP", numbers.power_coefficient),
            (thrust, "CT", numbers.thrust_coefficient),
            (ratio, "tip-speed ratio", numbers.tip_speed_ratio),
        )
        if off
    ]
    if not told:
        return []
    if power and thrust:
        roles = ["speed"]
    else:
        roles = [
            role for off, role in ((ratio, "rotor_speed"), (thrust, "thrust"), (power and not ratio, "torque")) if off
        ]
    names = " and ".join(c.name for c in channels if c.role in roles)
    text = f"{', '.join(told)}: no machine has that. Look at the unit and calibration of {names}."
    return [Remark("warning", text, "coefficients")]
