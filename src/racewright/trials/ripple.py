"""Torque ripple by order: amplitudes at multiples and half-multiples of the rotor's frequency."""

from __future__ import annotations

import functools
import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.trials.cell_sums import BINS
from racewright.trials.ripple_kernel import amplitudes
from racewright.trials.ripple_noise import NEAREST, chance_of_one, middle, neighbours, stands_from

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]


@dataclass(frozen=True)
class Peak:
    """Torque at one multiple of the rotor's frequency.

    Attributes
    ----------
    order : int
        Multiple of the rotor's frequency [-].
    frequency : float
        [Hz]
    amplitude : float
        Half of peak to peak [N m].
    share : float
        Amplitude over the mean torque [-].
    floor : float
        Median amplitude of the neighbouring frequencies on both sides; noise alone makes some multiple stand out
        in 2 % of windows [N m].
    name : str
        'rotor', 'blade passing', 'vane passing', 'blade and vane passing', with the multiple from 2 on, or
        'order'.
    """

    order: int
    frequency: float
    amplitude: float
    share: float
    floor: float
    name: str


@dataclass(frozen=True)
class Ripple:
    """The order spectrum of the torque over one window.

    Attributes
    ----------
    order : ndarray, shape (n,)
        0.5, 1, 1.5 and so on, up to twice the larger of blades and vanes [-].
    amplitude : ndarray, shape (n,)
        [N m]
    peaks : tuple of Peak
        The multiples that stand out, by order.
    """

    order: Floats
    amplitude: Floats
    peaks: tuple[Peak, ...]


SLIP = 1e-3
"""Largest error of the rotor speed's calibration that is lined up, relative. Own choice."""


def most_orders(blades: int, vanes: int) -> int:
    """Half-orders kept of the torque: up to twice the larger of blades and vanes [-]."""
    return 2 * min(2 * max(blades, vanes, 1), BINS // 8)


@dataclass(frozen=True)
class Spectrum:
    """Orders of the torque over one window, and what noise makes of them.

    Attributes
    ----------
    amplitude : ndarray, shape (n,)
        At orders 0.5, 1, 1.5 and so on [N m].
    floor : ndarray, shape (n // 2,)
        Median of the neighbours of orders 1, 2, 3 and so on; infinite where a window has too few turns [N m].
    stands : ndarray, shape (n // 2,)
        Amplitude above which each of these stands out [N m].
    """

    amplitude: Floats
    floor: Floats
    stands: Floats


def order_spectrum(
    orders: Complexes,
    totals: tuple[float, float],
    rotor_speed: float,
    cell: float,
    rate: float,
    blades: int,
    vanes: int,
) -> Spectrum:
    """Amplitudes at orders 0.5, 1, 1.5 and so on, with the floor about each multiple.

    They reach up to twice the larger of blades and vanes, but not past 0.45 of the torque's sampling rate.

    Each cell's torque less the window's mean is projected on the orders at the angle that the integral of the
    rotor speed gives. An error of that speed lets the angle slip steadily; the slip within 1e-3 of the speed
    that makes the multiples of the two passing orders largest is taken out. The floor is taken from frequencies
    close to the multiple on both sides, so that it follows a spectrum that falls, as that of turbulence does.

    Parameters
    ----------
    orders : ndarray of complex, shape (cells, 2, m)
        Harmonics of count and torque over two turns, m from `most_orders` [-, N m].
    totals : tuple of float
        Good readings of the torque and their sum [-, N m].
    rotor_speed : float
        Mean [rad/s].
    cell : float
        [s]
    rate : float
        Of the torque [Hz].
    blades, vanes : int
        [-]
    """
    readings, whole = float(totals[0]), float(totals[1])
    highest = most_orders(blades, vanes) // 2
    if rotor_speed != 0.0:
        highest = max(1, min(highest, int(0.45 * rate * 2.0 * math.pi / abs(rotor_speed))))
    if readings == 0.0:
        return Spectrum(np.zeros(2 * highest), np.full(highest, np.inf), np.full(highest, np.inf))
    turn = abs(rotor_speed) * cell
    cells = orders.shape[0]
    steps = max(1, math.ceil(SLIP * turn * (cells - 1) * highest / 0.5))
    passing = _passing(blades, vanes, highest)
    turns = turn * cells / (2.0 * math.pi)
    last = neighbours(turns, cells)
    found, beside = amplitudes(orders, whole / readings, 2 * highest, passing, turn, SLIP, steps, NEAREST, last)
    scale = (2.0 / readings) / _binned(2 * highest)
    count = beside.shape[1]
    if count == 0:
        return Spectrum(found * scale, np.full(highest, np.inf), np.full(highest, np.inf))
    floor = np.partition(beside, middle(count) - 1, axis=1)[:, middle(count) - 1] * scale[1::2]
    lined = {int(place) // 2 + 1 for place in passing}
    slipped = [2.0 * SLIP * turns * k if k in lined else 0.0 for k in range(1, highest + 1)]
    above = np.array([stands_from(count, chance_of_one(highest, one)) for one in slipped])
    return Spectrum(found * scale, floor, floor * above)


@functools.cache
def _passing(blades: int, vanes: int, highest: int) -> NDArray[np.int64]:
    """Places of the multiples of the two passing orders; of the rotor's own where there is none."""
    own = [2 * k - 1 for k in range(1, highest + 1) if k in (blades, 2 * blades, vanes, 2 * vanes)]
    return np.array(own or [1])


@functools.cache
def _binned(count: int) -> Floats:
    """What is left of a half-order's amplitude when its angle is shared by two bins."""
    return np.asarray(np.sinc(np.arange(1, count + 1) / BINS) ** 2)


def ripple(found: Spectrum, mean_torque: float, rotor_speed: float, blades: int, vanes: int) -> Ripple:
    """Name the multiples that stand out.

    Parameters
    ----------
    found : Spectrum
    mean_torque : float
        [N m]
    rotor_speed : float
        [rad/s]
    blades, vanes : int
        [-]
    """
    heights = found.amplitude[1::2]
    peaks = []
    for k in np.flatnonzero(heights > np.maximum(found.stands, 1e-9 * abs(mean_torque))).tolist():
        height, order = float(heights[k]), k + 1
        share = height / abs(mean_torque) if mean_torque else 0.0
        frequency = order * abs(rotor_speed) / (2.0 * np.pi)
        peaks.append(Peak(order, frequency, height, share, float(found.floor[k]), _name(order, blades, vanes)))
    return Ripple(_half_orders(found.amplitude.size), found.amplitude, tuple(peaks))


@functools.cache
def _half_orders(count: int) -> Floats:
    """0.5, 1, 1.5 and so on; one array for all windows of a record."""
    found = np.asarray(0.5 * np.arange(1, count + 1), np.float64)
    found.flags.writeable = False
    return found


def _name(order: int, blades: int, vanes: int) -> str:
    by_blade = blades > 1 and order % blades == 0
    by_vane = vanes > 1 and order % vanes == 0
    if by_blade and by_vane:
        return "blade and vane passing"
    for fits, count, word in ((by_vane, vanes, "vane passing"), (by_blade, blades, "blade passing")):
        if fits:
            return word if order == count else f"{word} x {order // count}"
    return "rotor" if order == 1 else "order"
