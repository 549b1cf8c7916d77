"""Coefficients that no machine has, and the channel that is likely to blame."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from racewright.remark import Remark
from racewright.trials.channel import Channel
from racewright.trials.coefficients import Coefficients

MOST_POWER = 1.5
"""CP on the rotor annulus beyond which a channel must be wrong, also in a duct. Own choice."""
MOST_THRUST = 4.0
"""The same of CT, duct's drag and blockage counted. Own choice."""
LEAST_POWER = -0.05
"""CP below which the rotor would drive the water: a sign is wrong. Own choice."""
BETZ = 16.0 / 27.0
RATIOS = (0.05, 20.0)
"""Tip-speed ratios that are believed of a turning rotor. Own choice."""


def impossible(numbers: Sequence[Coefficients], channels: Sequence[Channel]) -> list[list[Remark]]:
    """By window, a warning of what cannot be, with the channels to blame.

    Where tip-speed ratio, thrust and power are off together the stream speed is to blame, which stands in all three;
    else each has its own channel.

    Parameters
    ----------
    numbers : sequence of Coefficients
        Finite.
    channels : sequence of Channel
    """
    return [[Remark("warning", text, "coefficients")] if (text := _wrong(one, channels)) else [] for one in numbers]


def _wrong(one: Coefficients, channels: Sequence[Channel]) -> str:
    """What no machine has of it, '' where all of it may be."""
    power, thrust, ratio = one.power_coefficient, one.thrust_coefficient, one.tip_speed_ratio
    off = (abs(power) > MOST_POWER, abs(thrust) > MOST_THRUST, not RATIOS[0] <= abs(ratio) <= RATIOS[1])
    if any(off):
        values = zip(("CP", "CT", "tip-speed ratio"), (power, thrust, ratio), off, strict=True)
        told = ", ".join(f"{name} {value:.3g}" for name, value, there in values if there)
        blamed = _named(_to_blame(*off), channels)
        return f"{told}: no machine has that. Look at the unit and calibration of {blamed}."
    if power < LEAST_POWER:
        blamed = _named(("torque", "rotor_speed"), channels)
        return f"CP {power:.3g}: such a machine drives the water. Look at the signs of {blamed}."
    if thrust < 0.0:
        blamed = _named(("thrust",), channels)
        return f"CT {thrust:.3g}: such a machine is pushed upstream. Look at the sign of {blamed}."
    most = BETZ / (1.0 - one.blockage) ** 2
    if one.frontal_power_coefficient > most:
        return (
            f"CP {power:.3g} is {one.frontal_power_coefficient:.3g} on all that the machine blocks; a disc of that"
            f" size takes {most:.3g} at most in this channel (16/27 over (1 - {one.blockage:.3g})^2, Garrett and"
            f" Cummins 2007). Look at the units and calibrations of {_named(('speed', 'torque'), channels)}."
        )
    return ""


def _named(roles: Collection[str], channels: Sequence[Channel]) -> str:
    """Channels with these roles."""
    return " and ".join(c.name for c in channels if c.role in roles)


def _to_blame(power: bool, thrust: bool, ratio: bool) -> list[str]:
    """Roles whose channels explain which of the three are off."""
    if power and thrust:
        return ["speed"]
    own = ((ratio, "rotor_speed"), (thrust, "thrust"), (power and not ratio, "torque"))
    return [role for there, role in own if there]
