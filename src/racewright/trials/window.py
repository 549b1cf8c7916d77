"""A steady window's own sums, before its zeros are known."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.trials.cell_sums import COUNT, FIRST, SECOND, THIRD
from racewright.trials.cells import Cells, only
from racewright.trials.channel import Channel
from racewright.trials.rig import Rig
from racewright.trials.ripple import order_amplitudes

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
    power, torque, rotor_speed, thrust, cube : ndarray, shape (n,)
        Means over those cells that have all of them: torque x rotor speed [W], [N m], [rad/s], [N], mean cube
        of the stream speed over time and probes, the probes' noise still in [m3/s3].
    mean_power : float
        Over all readings [W].
    ripple : ndarray, shape (m,)
        Torque amplitude at orders 0.5, 1, 1.5 and so on [N m].
    """

    first: int
    cells: int
    totals: Floats
    power: Floats
    torque: Floats
    rotor_speed: Floats
    thrust: Floats
    cube: Floats
    mean_power: float
    ripple: Floats


def window(cells: Cells, channels: Sequence[Channel], weights: Floats, rig: Rig, cell: float) -> Window:
    """Take from some cells what a reading needs; `weights` of the speed probes sum to 1, `cell` in s."""
    q, w, t = (only(channels, role) for role in ("torque", "rotor_speed", "thrust"))
    probes = [k for k, c in enumerate(channels) if c.role == "speed"]
    good = cells.product[:, 0] > 0
    for k in (q, w, t, *probes):
        good &= cells.sums[k, :, COUNT] > 0
    part = cells.sums[:, good]

    def mean(k: int, column: int = FIRST) -> Floats:
        return np.asarray(part[k, :, column] / part[k, :, COUNT])

    cube = np.zeros(int(good.sum()))
    for k, weight in zip(probes, weights, strict=True):
        cube += weight * mean(k, THIRD)
    product = cells.product
    return Window(
        first=cells.first,
        cells=cells.size,
        totals=cells.sums.sum(axis=1),
        power=product[good, 1] / product[good, 0],
        torque=mean(q),
        rotor_speed=mean(w),
        thrust=mean(t),
        cube=cube,
        mean_power=float(product[:, 1].sum() / product[:, 0].sum()),
        ripple=order_amplitudes(
            cells.orders,
            cells.sums[q][:, [COUNT, FIRST]].sum(axis=0),
            float(mean(w).mean()),
            cell,
            channels[q].rate,
            rig.blades,
            rig.vanes,
        ),
    )


def speed_moments(found: Window, channels: Sequence[Channel], weights: Floats) -> tuple[float, float, float]:
    """Cube mean [m/s], plain mean [m/s] and turbulence intensity [-] over all good readings of the probes."""
    cube = mean = variance = 0.0
    probes = [k for k, c in enumerate(channels) if c.role == "speed"]
    for k, weight in zip(probes, weights, strict=True):
        n, first, second, third = found.totals[k, [COUNT, FIRST, SECOND, THIRD]]
        noise = channels[k].noise ** 2
        own = first / n
        cube += weight * (third / n - 3.0 * noise * own)
        mean += weight * own
        variance += weight * max(second / n - own**2 - noise, 0.0)
    return float(np.cbrt(cube)), float(mean), float(np.sqrt(variance) / mean)
