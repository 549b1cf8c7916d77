"""What is uncertain about a coming year of supply, and what many drawn years give."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.supply.chance import Chance, sure
from racewright.supply.stops_drawn import StopCause
from racewright.uncertainty.correlation import Correlation

Floats = NDArray[np.float64]
Whole = NDArray[np.int64]


_LOAD, _MACHINE, _SUN = (sure(name, 1.0) for name in ("load", "machine", "sun"))


@dataclass(frozen=True, slots=True)
class YearDoubt:
    """What differs from year to year, or is not known.

    Attributes
    ----------
    load_factor, machine_factor, sun_factor : Chance
        Multiply the given powers; a factor is one number for the year, such as growth of the village or the band of
        the power curve; draws below 0 count as 0. Default: sure at 1.
    correlations : tuple of Correlation
        Between the names of the three.
    causes : tuple of StopCause
        Stops of each machine, drawn anew for every year.
    machines : int
        That the given machine power stands for, 1 or more.
    most_machine : float or None
        Machine power is never above this, whatever its factor: rated power of all machines [W].
    """

    load_factor: Chance = _LOAD
    machine_factor: Chance = _MACHINE
    sun_factor: Chance = _SUN
    correlations: tuple[Correlation, ...] = ()
    causes: tuple[StopCause, ...] = ()
    machines: int = 1
    most_machine: float | None = None

    def __post_init__(self) -> None:
        if isinstance(self.machines, bool) or not isinstance(self.machines, int) or self.machines < 1:
            raise InputError(f"{self.machines!r} machines; wanted a whole number, 1 or more")
        if self.most_machine is not None and not 0.0 < self.most_machine < float("inf"):
            raise InputError(f"machine power may reach {self.most_machine!r} W; wanted above 0, e.g. 5000 W")


@dataclass(frozen=True, slots=True)
class ManyYears:
    """Drawn years, shape (count,) each; the same year has the same number whatever was drawn beside it.

    Attributes
    ----------
    first : int
        Number of the first year drawn.
    fuel : ndarray
        [m3]
    unserved_energy, unused_energy, served_energy : ndarray
        [J]
    unserved_time, set_time : ndarray
        With load unserved; running time of all sets added up [s].
    starts : ndarray
        Of all sets [-].
    load_factor, machine_factor, sun_factor : ndarray
        As drawn [-].
    machine_year : ndarray of int
        Which of the given machine years each took.
    running : ndarray
        Part of the time that a machine was able to run [-].
    sets_energy : ndarray
        Made by all sets [J].
    """

    first: int
    fuel: Floats
    unserved_energy: Floats
    unused_energy: Floats
    served_energy: Floats
    unserved_time: Floats
    set_time: Floats
    starts: Floats
    load_factor: Floats
    machine_factor: Floats
    sun_factor: Floats
    machine_year: Whole
    running: Floats
    sets_energy: Floats
