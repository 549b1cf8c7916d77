"""Energy of one machine in a year: its power curve over the speed climate."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.remark import Remark
from racewright.supply.curve import sampled
from racewright.supply.door import SECONDS_PER_YEAR
from racewright.supply.power_table import PowerTable, climate
from racewright.supply.result import YearlyEnergy
from racewright.uncertainty import Band

Floats = NDArray[np.float64]

_NO_TIME = 1e-200  # smaller shares lose digits in the product: the bin shows the plain mean of its powers


def yearly_energy(
    climate_edges: Floats,
    climate_share: Floats,
    power_speed: Floats,
    power: Floats,
    *,
    availability: float,
    rated_power: float,
    cut_in_speed: float,
    power_low: Floats | None = None,
    power_high: Floats | None = None,
) -> YearlyEnergy:
    """Energy delivered at the terminals in 8760 h.

    The power curve is linear between its points, 0 below cut-in and 0 outside its first and last speed (a
    machine that stops at high speed has a curve that ends there). The density of speed is linear inside
    each bin (see `density.bin_slopes`). Their product is integrated exactly, piece by piece, so that
    neither the mid-bin power nor the mean of the powers at the bin's edges stands for the bin.

    Parameters
    ----------
    climate_edges : ndarray, shape (b+1,)
        Growing bin edges of the cube-mean speed over the capture area, >= 0 [m/s].
    climate_share : ndarray, shape (b,)
        Fraction of time in each bin, >= 0, sums to 1 within 1e-6 [-].
    power_speed : ndarray, shape (n,)
        Growing stream speeds of the power curve, n >= 2 [m/s].
    power : ndarray, shape (n,)
        Electrical power, >= 0 [W].
    availability : float
        Share of time the machine is able to run, 0 to 1; lost time falls evenly on all speeds [-].
    rated_power : float
        > 0 [W].
    cut_in_speed : float
        >= 0 [m/s].
    power_low, power_high : ndarray, shape (n,), optional
        Ends of the power curve's band, power_low <= power <= power_high [W]; without them no band is
        claimed and a remark says so.

    Returns
    -------
    YearlyEnergy
        `power` is the bin's mean before availability; `energy`, `total`, `mean_power` and `capacity_factor`
        are after it.

    Raises
    ------
    InputError
        Arrays of unlike length, not growing, negative or not finite; shares that do not sum to 1; crossed
        bands.
    """
    edge, share = climate(climate_edges, climate_share)
    table = PowerTable(power_speed, power, cut_in_speed, rated_power, availability)
    speed, value, pieces = table.speed, table.power, table.over(edge, share)
    low = value if power_low is None else sampled("power_low", power_low, speed.size)
    high = value if power_high is None else sampled("power_high", power_high, speed.size)
    if (low > value).any() or (value > high).any():
        raise InputError("the power band is crossed; wanted power_low <= power <= power_high at every speed")

    scale = availability * SECONDS_PER_YEAR
    yields = [scale * pieces.integral(speed, curve) for curve in (low, value, high)]
    energy = yields[1]
    totals = [float(np.sum(y)) for y in yields]
    no_band = power_low is None and power_high is None
    basis = "power curve as given, no band" if no_band else "band of the power curve"
    mean = totals[1] / SECONDS_PER_YEAR
    in_bin = pieces.integral(speed, value)
    flat = pieces.mean(speed, value)
    bin_power = np.divide(in_bin, share, out=flat, where=share > _NO_TIME)
    beyond = pieces.share_above(float(speed[-1]))
    return YearlyEnergy(
        speed=0.5 * (edge[1:] + edge[:-1]),
        share=share,
        power=bin_power,
        energy=energy,
        total=Band(totals[0], totals[1], totals[2], basis),
        mean_power=mean,
        capacity_factor=mean / rated_power,
        share_below_cut_in=pieces.share_below(cut_in_speed),
        share_rated=pieces.share_at(speed, value, rated_power),
        remarks=_remarks(beyond, float(speed[-1]), no_band),
    )


def _remarks(beyond: float, last: float, no_band: bool) -> tuple[Remark, ...]:
    remarks = []
    if beyond > 0.0:
        text = (
            f"{100.0 * beyond:.2g} % of the year is faster than the power curve's last speed, "
            f"{last:.3g} m/s: no energy is counted there."
        )
        remarks.append(Remark("caution", text, "power curve"))
    if no_band:
        remarks.append(Remark("caution", "The power curve came without a band, so the energy has none.", "band"))
    return tuple(remarks)
