"""Torque ripple by order: amplitudes at multiples and half-multiples of the rotor's frequency."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.trials.cell_sums import BINS

Floats = NDArray[np.float64]
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


def ripple(angle: Floats, mean_torque: float, rotor_speed: float, blades: int, vanes: int) -> Ripple | None:
    """Order spectrum from sums of torque by rotor angle; None where an angle bin stayed empty.

    Parameters
    ----------
    angle : ndarray, shape (2, BINS)
        Count and sum of torque by angle over two turns [-, N m].
    mean_torque : float
        [N m]
    rotor_speed : float
        [rad/s]
    blades, vanes : int
        [-]
    """
    count, total = angle
    if (count == 0).any():
        return None
    spectrum = np.fft.rfft(total / count) / BINS
    highest = min(2 * max(blades, vanes, 1), BINS // 8)
    index = np.arange(1, 2 * highest + 1)
    amplitude = 2.0 * np.abs(spectrum[index]) / np.sinc(index / BINS)
    order = 0.5 * index
    halves = order[::2]
    peaks = []
    for k in range(1, highest + 1):
        near = np.argsort(np.abs(halves - k), kind="stable")[:6]
        floor = float(np.median(amplitude[::2][near]))
        size = float(amplitude[2 * k - 1])
        if size > SIGNIFICANT * floor and size > 1e-9 * abs(mean_torque):
            share = size / abs(mean_torque) if mean_torque else 0.0
            name = _name(k, blades, vanes)
            peaks.append(Peak(k, k * abs(rotor_speed) / (2.0 * np.pi), size, share, floor, name))
    return Ripple(order, amplitude, tuple(peaks))


def _name(order: int, blades: int, vanes: int) -> str:
    by_blade = blades > 1 and order % blades == 0
    by_vane = vanes > 1 and order % vanes == 0
    if by_blade and by_vane:
        return "blade and vane passing"
    for fits, count, word in ((by_vane, vanes, "vane passing"), (by_blade, blades, "blade passing")):
        if fits:
            return word if order == count else f"{word} x {order // count}"
    return "rotor" if order == 1 else "order"
