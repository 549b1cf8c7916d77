"""Far downstream: speeds in the wake and beside it, in an open stream and in a closed round channel."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class FarWake:
    """Far-wake speed w and bypass speed u_b over the stream speed, and their rates by psi at the edge [-]."""

    wake: float
    bypass: float
    wake_rate: float
    bypass_rate: float


def far_wake(head_coefficient: float, psi_edge: float, channel_radius: float) -> FarWake:
    """Speeds where pressure is even again across the channel.

    Both streams lie at one pressure and only the wake has lost head: u_b^2 - w^2 = CH. The flow through the disc,
    a share q = 2 psi_edge / R_w^2 of the channel's, and the rest fill the channel: u_b (1 - q/w) + q = 1 (closed
    channel of one-dimensional theory; Garrett and Cummins 2007 for a bare disc). Without walls u_b = 1.

    Parameters
    ----------
    head_coefficient : float
        CH, 0 to below 1 [-].
    psi_edge : float
        Stream function on the sheet over the stream speed [length^2].
    channel_radius : float
        R_w; 0 is an open stream [length].
    """
    if channel_radius == 0.0:
        return FarWake(math.sqrt(1.0 - head_coefficient), 1.0, 0.0, 0.0)
    share = min(max(2.0 * psi_edge / channel_radius**2, 1e-9), 0.95)
    low, high = 0.0, 1.0
    for _ in range(80):
        w = 0.5 * (low + high)
        excess = share + math.sqrt(head_coefficient + w * w) * (1.0 - share / w) - 1.0
        low, high = (low, w) if excess > 0.0 else (w, high)
    bypass = math.sqrt(head_coefficient + w * w)
    by_w = w / bypass * (1.0 - share / w) + bypass * share / (w * w)
    rate = -(1.0 - bypass / w) / by_w * 2.0 / channel_radius**2
    return FarWake(w, bypass, rate, rate * w / bypass)


def channel_thrust(far: FarWake, flow: float, channel_area: float) -> float:
    """Total axial force that momentum asks for in a closed channel, over half rho U^2 [length^2].

    `flow` is that through the disc over the stream speed [length^2].
    """
    wake_area = flow / far.wake
    carried = far.wake**2 * wake_area + far.bypass**2 * (channel_area - wake_area)
    return channel_area * (far.bypass**2 - 1.0) + 2.0 * (channel_area - carried)
