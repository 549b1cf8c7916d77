"""Coefficients that no machine has, and the channel that is likely to blame."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from racewright.remark import Remark
from racewright.trials.channel import Channel

Floats = NDArray[np.float64]

MOST_POWER = 1.5
"""CP on the rotor annulus beyond which a channel must be wrong, also in a duct. Own choice."""
MOST_THRUST = 4.0
"""The same of CT, duct's drag and blockage counted. Own choice."""
LEAST_POWER = -0.05
"""CP below which the rotor would drive the water: a sign is wrong. Own choice."""
BETZ = 16.0 / 27.0
RATIOS = (0.05, 20.0)
"""Tip-speed ratios that are believed of a turning rotor. Own choice."""


def impossible(
    coefficients: Floats, frontal: Floats, blockage: float, channels: Sequence[Channel]
) -> list[list[Remark]]:
    """By window, a warning of what cannot be, with the channels to blame.

    Where tip-speed ratio, thrust and power are off together the stream speed is to blame, which stands in all three;
    else each has its own channel.

    Parameters
    ----------
    coefficients : ndarray, shape (n, 4)
        In the order of `NAMES`, finite [-].
    frontal : ndarray, shape (n,)
        CP on the circle that the machine blocks [-].
    blockage : float
        That circle over the channel's section, 0 to below 1 [-].
    channels : sequence of Channel
    """
    size = np.abs(coefficients)
    ratio = (size[:, 3] < RATIOS[0]) | (size[:, 3] > RATIOS[1])
    off = np.stack((size[:, 0] > MOST_POWER, size[:, 2] > MOST_THRUST, ratio), axis=1)
    out: list[list[Remark]] = [[] for _window in range(size.shape[0])]
    most = BETZ / (1.0 - blockage) ** 2
    for i in range(size.shape[0]):
        if off[i].any():
            values = zip(
                ("CP", "CT", "tip-speed ratio"), coefficients[i, [0, 2, 3]].tolist(), off[i].tolist(), strict=True
            )
            told = ", ".join(f"{name} {value:.3g}" for name, value, there in values if there)
            roles = _to_blame(*off[i].tolist())
            names = " and ".join(c.name for c in channels if c.role in roles)
            text = f"{told}: no machine has that. Look at the unit and calibration of {names}."
            out[i].append(Remark("warning", text, "coefficients"))
        elif coefficients[i, 0] < LEAST_POWER:
            out[i].append(_backward("CP", coefficients[i, 0], "drives the water", "torque and rotor speed", channels))
        elif coefficients[i, 2] < 0.0:
            out[i].append(_backward("CT", coefficients[i, 2], "is pushed upstream", "thrust", channels))
        elif frontal[i] > most:
            text = (
                f"CP {coefficients[i, 0]:.3g} is {frontal[i]:.3g} on all that the machine blocks; a disc of that size"
                f" takes {most:.3g} at most in this channel (16/27 over (1 - {blockage:.3g})^2, Garrett and Cummins"
                " 2007). Look at the units and calibrations of stream speed and torque."
            )
            out[i].append(Remark("warning", text, "coefficients"))
    return out


_ROLES = {"torque and rotor speed": ("torque", "rotor_speed"), "thrust": ("thrust",)}


def _backward(name: str, value: float, what: str, of: str, channels: Sequence[Channel]) -> Remark:
    """A coefficient of the wrong sign."""
    names = " and ".join(c.name for c in channels if c.role in _ROLES[of])
    text = f"{name} {value:.3g}: such a machine {what}. Look at the signs of {of}: {names}."
    return Remark("warning", text, "coefficients")


def _to_blame(power: bool, thrust: bool, ratio: bool) -> list[str]:
    """Roles whose channels explain which of the three are off."""
    if power and thrust:
        return ["speed"]
    own = ((ratio, "rotor_speed"), (thrust, "thrust"), (power and not ratio, "torque"))
    return [role for there, role in own if there]
