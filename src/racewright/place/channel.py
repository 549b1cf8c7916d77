"""What a tidal channel can give at most, and how its flow falls as machines take power from all of it.

A channel joins two large basins whose levels differ by a cos(omega t). With Q its flow, c = length / area,
c dQ/dt = g a cos(omega t) - (friction + machines) Q |Q|  (Garrett and Cummins 2005, Proc. R. Soc. A 461, 2563).
In t' = omega t and Q' = Q c omega / (g a) only the friction ratio is left: dQ'/dt' = cos t' - (l0 + l1) Q' |Q'|.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from racewright.place.channel_flow import loaded
from racewright.place.guard import within
from racewright.place.reach import GRAVITY
from racewright.place.result import Floats
from racewright.remark import Remark

M2_PERIOD = 44714.164
"""[s]"""
GENERAL, LOWEST, HIGHEST = 0.22, 0.196, 0.242
"""Power over density g a Q0: general rule, and the range over all friction ratios [-]."""


@dataclass(frozen=True)
class ChannelPotential:
    """A channel under growing drag of machines; curves have shape (n,), first without machines.

    Attributes
    ----------
    potential : float
        Largest mean power that drag over the whole channel takes from it; upper bound on all machines together [W].
    factor : float
        The same over density g a Q0 [-].
    natural_flow : float
        Peak flow Q0 without machines [m3/s].
    flow_left : float
        Peak flow at the potential over the natural one [-].
    friction_ratio : float
        l0: 0 no friction, above 10 friction alone [-].
    power : ndarray
        Mean power taken [W].
    flow : ndarray
        Peak flow over the natural one [-].
    remarks : tuple of Remark
    """

    potential: float
    factor: float
    natural_flow: float
    flow_left: float
    friction_ratio: float
    power: Floats
    flow: Floats
    remarks: tuple[Remark, ...]


def quick_potential(level_amplitude: float, peak_flow: float, density: float) -> tuple[float, float, float]:
    """Low, general and high potential from the head amplitude along the channel and its natural peak flow [W].

    Parameters
    ----------
    level_amplitude : float
        Of the difference of level between the ends, 0.01 to 20 [m].
    peak_flow : float
        Largest natural flow, 1 to 1e9 [m3/s].
    density : float
        900 to 1100 [kg/m3].

    Notes
    -----
    0.196, 0.22 and 0.242 times density g a Q0.
    """
    head = within("the amplitude of level", level_amplitude, 0.01, 20.0, "m")
    flow = within("the peak flow", peak_flow, 1.0, 1e9, "m3/s")
    unit = within("the density", density, 900.0, 1100.0, "kg/m3") * GRAVITY * head * flow
    return LOWEST * unit, GENERAL * unit, HIGHEST * unit


def channel_potential(
    level_amplitude: float,
    *,
    length: float,
    area: float,
    depth: float,
    density: float,
    drag_coefficient: float = 0.0025,
    exit_loss: float = 1.0,
    period: float = M2_PERIOD,
) -> ChannelPotential:
    """Potential of an even channel between two large basins.

    Parameters
    ----------
    level_amplitude : float
        Of the difference of level between the ends, 0.01 to 20 [m].
    length, area, depth : float
        Of the channel: 10 to 1e6 m, cross-section 1 to 1e8 m2, hydraulic depth 0.5 to 500 m [m, m2, m].
    density : float
        900 to 1100 [kg/m3].
    drag_coefficient : float
        Of the bed on the mean speed, 0 to 0.1; default 0.0025 (common practice) [-].
    exit_loss : float
        Velocity heads lost where the channel opens, 0 to 3; default 1 (a jet) [-].
    period : float
        1 to 60 hours; default M2 [s].

    Raises
    ------
    InputError
        Numbers outside their ranges.
    NoAnswerError
        A flow that does not come to repeat itself.

    Notes
    -----
    One tide, still levels at both ends that machines do not move. An upper bound: machines with gaps between them,
    supports and wakes make less of it.
    """
    head = within("the amplitude of level", level_amplitude, 0.01, 20.0, "m")
    inertia = within("the length", length, 10.0, 1e6, "m") / within("the area", area, 1.0, 1e8, "m2")
    within("the depth", depth, 0.5, 500.0, "m")
    within("the drag coefficient", drag_coefficient, 0.0, 0.1, "[-]")
    within("the exit loss", exit_loss, 0.0, 3.0, "[-]")
    rho = within("the density", density, 900.0, 1100.0, "kg/m3")
    omega = 2.0 * math.pi / within("the period", period, 3600.0, 216_000.0, "s")
    drag = (drag_coefficient * length / depth + 0.5 * exit_loss) / area**2
    unit = GRAVITY * head / (inertia * omega)
    ratio = drag * GRAVITY * head / (inertia * omega) ** 2
    load, peak, cube = loaded(ratio)
    power = rho * GRAVITY * head * unit * load * cube
    best = int(np.argmax(power))
    return ChannelPotential(
        potential=float(power[best]),
        factor=float(load[best] * cube[best] / peak[0]),
        natural_flow=float(unit * peak[0]),
        flow_left=float(peak[best] / peak[0]),
        friction_ratio=ratio,
        power=power,
        flow=peak / peak[0],
        remarks=_remarks(power, peak / peak[0]),
    )


def _remarks(power: Floats, flow: Floats) -> tuple[Remark, ...]:
    best = int(np.argmax(power))
    gentle = float(np.interp(0.05, 1.0 - flow[: best + 1], power[: best + 1]))
    text = (
        f"All machines together cannot take more in the mean than {power[best] / 1e6:.3g} MW, with the peak flow "
        f"down to {100.0 * flow[best]:.0f} %; for 5 % less flow they take {gentle / 1e6:.3g} MW. What a channel may "
        "lose is for its authorities to say."
    )
    return (Remark("caution", text, "channel potential"),)
