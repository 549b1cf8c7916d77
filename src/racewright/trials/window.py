"""A steady window's own sums, before its zeros are known."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.trials.cell_sums import COUNT, FIRST
from racewright.trials.cells import Cells, Places
from racewright.trials.channel import Channel
from racewright.trials.rig import Rig
from racewright.trials.ripple import Spectrum, order_spectrum
from racewright.trials.window_kernel import window_sums

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Window:
    """Sums and cell series of one steady window; about 6 kB, whatever the logger's rate.

    Attributes
    ----------
    first, cells : int
        [-]
    totals : ndarray, shape (channels, COLUMNS)
        As `cell_sums` names the columns.
    series : ndarray, shape (5, n)
        Means over those cells that have all of them: torque x rotor speed [W], torque [N m], rotor speed [rad/s],
        thrust [N], mean cube of the stream speed over time and probes, the probes' noise still in [m3/s3].
    mean_power : float
        Over all readings [W].
    ripple : Spectrum
        Torque by order.
    """

    first: int
    cells: int
    totals: Floats
    series: Floats
    mean_power: float
    ripple: Spectrum


def window(
    cells: Cells, channels: Sequence[Channel], places: Places, weights: Floats, rig: Rig, cell: float
) -> Window:
    """Take from some cells what a reading needs; `weights` of the speed probes sum to 1, `cell` in s."""
    torque, rest = places.torque, np.array([places.torque, places.rotor_speed, places.thrust])
    totals, series, power, turning = window_sums(cells.sums, cells.product, rest, places.probes, weights)
    ripple = order_spectrum(
        cells.orders,
        (totals[torque, COUNT], totals[torque, FIRST]),
        turning,
        cell,
        channels[torque].rate,
        rig.blades,
        rig.vanes,
    )
    return Window(cells.first, cells.size, totals, series, power, ripple)
