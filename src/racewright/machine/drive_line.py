"""A generator at a fixed direct voltage: the points it works at, and the seam of generators that know them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from racewright.machine.drive_checks import Floats
from racewright.machine.drive_generator import Generator


@dataclass(frozen=True)
class LinePoints:
    """A generator feeding a fixed direct voltage, shape (n,) each.

    Attributes
    ----------
    speed : ndarray
        Generator speed [rad/s].
    current, voltage : ndarray
        Direct current and voltage at the bridge [A], [V]; without current the voltage is the open one.
    torque, loss : ndarray
        Shaft torque [N m], power lost in the generator [W].
    answered : ndarray of bool
        False where the current would pass the largest one known.
    """

    speed: Floats
    current: Floats
    voltage: Floats
    torque: Floats
    loss: Floats
    answered: NDArray[np.bool_]


class LineGenerator(Generator, Protocol):
    """A generator whose voltage and current are known, so that it can work against a battery."""

    def at_voltage(self, speed: Floats, voltage: float, series_resistance: float) -> LinePoints:
        """Working against a voltage [V] through a resistance [ohm] at generator speeds [rad/s]."""
        ...

    def open_voltage(self, speed: Floats) -> Floats:
        """Direct voltage [V] without current at generator speeds [rad/s]."""
        ...
