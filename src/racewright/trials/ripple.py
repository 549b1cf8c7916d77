"""Torque ripple by order: amplitudes at multiples and half-multiples of the rotor's frequency."""

from __future__ import annotations

import functools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.trials.cell_sums import BINS
from racewright.trials.ripple_kernel import amplitudes

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
SIGNIFICANT = 4.0
"""A peak stands out above this many times the median of the half-orders about it. Own choice: in noise alone an
amplitude passes it once in 7e4 (Rayleigh)."""


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
        Median amplitude of the six nearest half-orders; a peak stands out at 4 times this [N m].
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


def order_amplitudes(
    orders: Complexes,
    totals: tuple[float, float],
    rotor_speed: float,
    cell: float,
    rate: float,
    blades: int,
    vanes: int,
) -> Floats:
    """Amplitudes at orders 0.5, 1, 1.5 and so on [N m].

    They reach up to twice the larger of blades and vanes, but not past 0.45 of the torque's sampling rate.

    Each cell's torque less the window's mean is projected on the orders at the angle that the integral of the
    rotor speed gives. An error of that speed lets the angle slip steadily; the slip within 1e-3 of the speed
    that makes the multiples of the two passing orders largest is taken out.

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
        return np.zeros(2 * highest)
    turn = abs(rotor_speed) * cell
    steps = max(1, math.ceil(SLIP * turn * (orders.shape[0] - 1) * highest / 0.5))
    passing = _passing(blades, vanes, highest)
    found = amplitudes(orders, whole / readings, 2 * highest, passing, turn, SLIP, steps)
    return np.asarray(found * (2.0 / readings) / _binned(2 * highest))


@functools.cache
def _passing(blades: int, vanes: int, highest: int) -> NDArray[np.int64]:
    """Places of the multiples of the two passing orders; of the rotor's own where there is none."""
    own = [2 * k - 1 for k in range(1, highest + 1) if k in (blades, 2 * blades, vanes, 2 * vanes)]
    return np.array(own or [1])


@functools.cache
def _binned(count: int) -> Floats:
    """What is left of a half-order's amplitude when its angle is told in bins."""
    return np.asarray(np.sinc(np.arange(1, count + 1) / BINS))


def ripples(
    found: Sequence[Floats], mean_torque: Sequence[float], rotor_speed: Sequence[float], blades: int, vanes: int
) -> list[Ripple]:
    """`ripple` of several windows."""
    out: dict[int, Ripple] = {}
    for size in {one.size for one in found}:
        own = [i for i, one in enumerate(found) if one.size == size]
        amplitudes = np.stack([found[i] for i in own])
        torque = np.array([mean_torque[i] for i in own])
        floors = np.median(amplitudes[:, ::2][:, _near(size)], axis=2)
        stands = amplitudes[:, 1::2] > np.maximum(SIGNIFICANT * floors, 1e-9 * np.abs(torque)[:, None])
        peaks: list[list[Peak]] = [[] for _window in own]
        for i, k in np.argwhere(stands).tolist():
            height, mean, order = float(amplitudes[i, 2 * k + 1]), float(torque[i]), k + 1
            share = height / abs(mean) if mean else 0.0
            frequency = order * abs(rotor_speed[own[i]]) / (2.0 * np.pi)
            name = _name(order, blades, vanes)
            peaks[i].append(Peak(order, frequency, height, share, float(floors[i, k]), name))
        for i, some in zip(own, peaks, strict=True):
            out[i] = Ripple(_half_orders(size), found[i], tuple(some))
    return [out[i] for i in range(len(found))]


def ripple(amplitude: Floats, mean_torque: float, rotor_speed: float, blades: int, vanes: int) -> Ripple:
    """Name the peaks among the amplitudes of `order_amplitudes`.

    Parameters
    ----------
    amplitude : ndarray, shape (n,)
        At orders 0.5, 1, 1.5 and so on [N m].
    mean_torque : float
        [N m]
    rotor_speed : float
        [rad/s]
    blades, vanes : int
        [-]
    """
    return ripples([amplitude], [mean_torque], [rotor_speed], blades, vanes)[0]


@functools.cache
def _half_orders(count: int) -> Floats:
    """0.5, 1, 1.5 and so on; one array for all windows of a record."""
    found = np.asarray(0.5 * np.arange(1, count + 1), np.float64)
    found.flags.writeable = False
    return found


@functools.cache
def _near(size: int) -> NDArray[np.int64]:
    """Places of the six nearest half-orders of each whole order, of so many orders."""
    halves = 0.5 * np.arange(1, size + 1)[::2]
    wholes = np.arange(1, size // 2 + 1)
    return np.argsort(np.abs(halves - wholes[:, None]), axis=1, kind="stable")[:, :6]


def _name(order: int, blades: int, vanes: int) -> str:
    by_blade = blades > 1 and order % blades == 0
    by_vane = vanes > 1 and order % vanes == 0
    if by_blade and by_vane:
        return "blade and vane passing"
    for fits, count, word in ((by_vane, vanes, "vane passing"), (by_blade, blades, "blade passing")):
        if fits:
            return word if order == count else f"{word} x {order // count}"
    return "rotor" if order == 1 else "order"
