"""A disc that takes head in a channel with a rigid lid: one-dimensional theory."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scipy.optimize import brentq

from racewright.errors import InputError, NoAnswerError


@dataclass(frozen=True)
class ChannelFlow:
    """A bare disc in a channel; speeds are over the channel's stream speed, ahead of the disc.

    Attributes
    ----------
    load : float
        CT of the disc [-].
    blockage : float
        Disc area over channel area [-].
    froude : float
        U / sqrt(g h), 0 under a rigid lid [-].
    wake_speed, bypass_speed, disc_speed : float
        In the wake and beside it where pressure is even again, and at the disc [-].
    depth_ratio : float
        Depth there over depth ahead [-].
    drop : float
        Fall of the surface after wake and bypass have mixed, over the depth ahead [-].
    """

    load: float
    blockage: float
    froude: float
    wake_speed: float
    bypass_speed: float
    disc_speed: float
    depth_ratio: float = 1.0
    drop: float = 0.0


def closed_at(wake_speed: float, blockage: float) -> ChannelFlow:
    """The flow with a given wake speed a4, 0 to 1 (Garrett and Cummins 2007, J. Fluid Mech. 588, 243-251).

    Continuity, Bernoulli beside the wake and momentum over the channel leave a quadratic for the bypass speed:
    (1 - B) b4 = 1 - a4 + sqrt(B (1 - a4)^2 + a4^2 (1 - B)^2); CT = b4^2 - a4^2. The disc speed is written so that
    nothing cancels as B goes to 0.
    """
    check_channel(blockage, 0.0)
    a = wake_speed
    if not 0.0 <= a <= 1.0:
        raise InputError(f"the wake speed is {a}; it must lie between 0 and 1", key="wake_speed")
    b = (1.0 - a + math.sqrt(blockage * (1.0 - a) ** 2 + (a * (1.0 - blockage)) ** 2)) / (1.0 - blockage)
    load = b * b - a * a
    # a2 = a4 (r + 1)/(1 + sqrt(1 + B (r^2 - 1))) with r = b4/a4, multiplied out so that a4 may be 0
    disc = a * (a + b) / (a + math.sqrt(a * a + blockage * load)) if a > 0.0 else 0.0
    return ChannelFlow(load, blockage, 0.0, a, b, disc)


def greatest_load(blockage: float) -> float:
    """CT at which the wake stands still, 1/(1 - sqrt(B))^2: the theory has no answer above [-]."""
    return 1.0 / (1.0 - math.sqrt(blockage)) ** 2


def closed_channel(load: float, blockage: float) -> ChannelFlow:
    """The flow at a given load (as Barnsley and Wellicome 1990 and Bahaj et al. 2007 solve for it).

    Parameters
    ----------
    load : float
        CT of the disc on the channel's stream speed, 0 or more [-].
    blockage : float
        B, above 0 and below 1 [-].

    Raises
    ------
    NoAnswerError
        The load is above `greatest_load`.
    """
    check_channel(blockage, 0.0)
    check_load(load)
    if load >= greatest_load(blockage):
        raise NoAnswerError(
            f"no root: at a blockage of {blockage:.4g} the wake stands still at a load of "
            f"{greatest_load(blockage):.4g}, and {load:.4g} is asked for"
        )
    a = brentq(lambda one: closed_at(one, blockage).load - load, 0.0, 1.0, xtol=1e-15) if load > 0.0 else 1.0
    return closed_at(float(a), blockage)


def check_load(load: float) -> None:
    """InputError unless a load is finite and 0 or more."""
    if not (math.isfinite(load) and load >= 0.0):
        raise InputError(f"the load is {load}; it must be a finite number, 0 or more", key="thrust_coefficient")


def check_channel(blockage: float, froude: float) -> None:
    """InputError unless blockage lies between 0 and 1 and the stream is slower than its waves."""
    if not 0.0 < blockage < 1.0:
        raise InputError(
            f"the blockage is {blockage}; it must lie between 0 and 1 (an open stream needs no correction)",
            key="blockage",
        )
    if not 0.0 <= froude < 1.0:
        raise InputError(f"the Froude number is {froude}; it must be 0 or more and below 1", key="froude")
