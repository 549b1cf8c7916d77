"""A generator table from the rows of a test sheet."""

from __future__ import annotations

import numpy as np

from racewright.errors import InputError
from racewright.machine.drive_checks import Floats, filled
from racewright.machine.drive_table import GeneratorTable


def generator_of_rows(
    speed: Floats,
    current: Floats,
    voltage: Floats,
    loss: Floats,
    torque: Floats | None = None,
    *,
    cogging_torque: float = 0.0,
) -> GeneratorTable:
    """Sort rows into a grid.

    Parameters
    ----------
    speed, current, voltage, loss : ndarray, shape (k,)
        Generator speed > 0 [rad/s], direct current [A], direct voltage [V], power lost [W]; every speed with every
        current, in any order.
    torque : ndarray, shape (k,), optional
        Shaft torque [N m]. Left out, it is (voltage x current + loss) / speed, and `torque_measured` is False.
    cogging_torque : float
        At the generator shaft, >= 0 [N m].

    Raises
    ------
    InputError
        When a pair of speed and current is missing or stands twice, or as `GeneratorTable`.
    """
    turning = np.array(speed, dtype=np.float64)
    if turning.ndim != 1 or not np.all(np.isfinite(turning)) or np.any(turning <= 0.0):
        raise InputError("The generator's rows want finite speeds above 0.")
    shape = turning.shape
    flowing, volts, lost = (
        filled(f"The generator rows' {name}", column, shape)
        for name, column in (("current", current), ("voltage", voltage), ("loss", loss))
    )
    rows, columns = np.unique(turning), np.unique(flowing)
    if rows.size * columns.size != turning.size:
        raise InputError(
            f"The generator's rows hold {rows.size} speeds and {columns.size} currents, which asks for "
            f"{rows.size * columns.size} rows; found {turning.size}. Every speed wants every current, once."
        )
    order = np.lexsort((flowing, turning))
    grid = (rows.size, columns.size)
    if np.any(flowing[order].reshape(grid) != columns) or np.any(turning[order].reshape(grid) != rows[:, None]):
        raise InputError("A pair of speed and current stands twice in the generator's rows, and another is missing.")
    twist = (volts * flowing + lost) / turning if torque is None else filled("The torque", torque, shape)
    return GeneratorTable(
        rows,
        columns,
        twist[order].reshape(grid),
        volts[order].reshape(grid),
        lost[order].reshape(grid),
        cogging_torque,
        torque is not None,
    )
