"""What turbulence does to power: the mean of the cube, and the power curve read by every eddy."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr

from racewright.errors import InputError
from racewright.place.guard import within
from racewright.remark import Remark
from racewright.supply.power_table import PowerTable

Floats = NDArray[np.float64]

USUAL = 0.15
"""Rivers at mid-depth have 0.08 to 0.15 (general literature, from memory) [-]."""


@dataclass(frozen=True)
class Turbulence:
    """Effect of turbulence on energy; told, never added to the yearly energy.

    Attributes
    ----------
    intensity : float
        Standard deviation of streamwise speed over its mean, 0 to 0.5 [-].
    cube_factor : float
        1 + 3 intensity^2: mean of the cube over the cube of the mean. The third moment (skewness x intensity^3) is
        dropped, zero for a normal distribution, and so is cross flow [-].
    followed : float
        Energy with the power curve followed at every instant, over the energy by the mean speeds [-].
    contained : bool
        True when the power curve was measured in such turbulence and so holds the effect already.
    remarks : tuple of Remark
    """

    intensity: float
    cube_factor: float
    followed: float
    contained: bool
    remarks: tuple[Remark, ...]


def cube_factor(intensity: float) -> float:
    """Mean of the cube of a normally distributed speed over the cube of its mean, 1 + 3 I^2 [-]."""
    within("the turbulence intensity", intensity, 0.0, 0.5, "[-]")
    return 1.0 + 3.0 * intensity**2


def in_turbulence(table: PowerTable, intensity: float, step: float = 0.02) -> PowerTable:
    """The power curve averaged over normally distributed speed about each mean speed.

    As if the machine followed its curve at every instant: cut-in and rated power are rounded off. Exact for a curve
    of straight pieces; tabulated anew from `step` to the curve's last speed, in steps of `step`, with cut-in there.

    Parameters
    ----------
    table : PowerTable
    intensity : float
        0 to 0.5 [-].
    step : float
        0.001 to 0.1, default 0.02 [m/s].

    Raises
    ------
    InputError
        Intensity or step outside their range, a curve that ends below `step`.
    """
    within("the turbulence intensity", intensity, 0.0, 0.5, "[-]")
    within("the step of speed", step, 1e-3, 0.1, "m/s")
    last = float(table.speed[-1])
    if intensity == 0.0:
        return table
    if last < 2.0 * step:
        raise InputError(
            f"the power curve ends at {last:g} m/s; turbulence wants one that ends above {2 * step:g} m/s"
        )
    mean = np.linspace(step, last, max(2, round(last / step)))
    power = np.zeros_like(mean)
    cut_in = max(table.cut_in_speed, float(table.speed[0]))
    if cut_in < last:
        node = np.unique(np.append(table.speed[table.speed > cut_in], cut_in))
        value = np.interp(node, table.speed, table.power)
        slope = np.diff(value) / np.diff(node)
        z = (node[None, :] - mean[:, None]) / (intensity * mean)[:, None]
        inside = np.diff(ndtr(z), axis=1)
        bell = np.diff(np.exp(-0.5 * z**2), axis=1) / np.sqrt(2.0 * np.pi)
        at_mean = value[:-1] + slope * (mean[:, None] - node[:-1])
        power = np.sum(at_mean * inside - slope * (intensity * mean)[:, None] * bell, axis=1)
    return replace(table, speed=mean, power=np.maximum(power, 0.0), cut_in_speed=float(mean[0]))


def turbulence(edge: Floats, share: Floats, table: PowerTable, intensity: float, *, contained: bool) -> Turbulence:
    """What turbulence would do to the energy of a climate of mean speeds.

    Parameters
    ----------
    edge, share : ndarray, shapes (b+1,), (b,)
        The climate [m/s], [-].
    table : PowerTable
    intensity : float
        0 to 0.5 [-].
    contained : bool
        True when the power curve was measured in such turbulence.

    Notes
    -----
    Nothing is added to the energy: eddies smaller than the rotor, or quicker than its speed can follow, give less,
    and the loads they cause are another matter.
    """
    factor = cube_factor(intensity)
    calm = table.mean_power(edge, share)
    rough = in_turbulence(table, intensity).mean_power(edge, share)
    followed = rough / calm if calm > 0.0 else 1.0
    told = []
    if contained:
        text = f"The power curve holds the turbulence of {100 * intensity:.0f} % already; nothing is added."
        told.append(Remark("note", text, "turbulence"))
    elif intensity > 0.0:
        text = (
            f"Turbulence of {100 * intensity:.0f} % raises the mean cube of speed by {100 * (factor - 1):.1f} %; if "
            f"the rotor followed every eddy, energy would change by {100 * (followed - 1):+.1f} %. It is not "
            "counted: the power curve is for steady water."
        )
        told.append(Remark("note", text, "turbulence"))
    if intensity > USUAL:
        text = (
            f"Turbulence of {100 * intensity:.0f} % is more than rivers usually have at mid-depth (8 to 15 %, from "
            "memory): check loads and fatigue."
        )
        told.append(Remark("caution", text, "turbulence"))
    return Turbulence(intensity, factor, followed, contained, tuple(told))
