"""An invented machine and an invented flow law for the stage's tests."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from racewright.flow.result import Axisymmetric
from racewright.machine.drive import Drive
from racewright.machine.duct import Duct
from racewright.machine.hub import Hub
from racewright.machine.unit import DesignIntent, RowIntent, Unit
from racewright.water import Water

FRESH = Water("fresh", 283.15, 999.7, 1.307e-6, 1228.0)


def unit(scale: float = 1.0, *, clearance: float = 0.01, turned: float = 0.0) -> Unit:
    """A river machine of throat diameter 1 m x `scale`."""
    return Unit(
        Duct(0.5 * scale, 1.6, 0.6 * scale, 0.12),
        Hub(0.15 * scale, -0.2 * scale, 0.3 * scale, 0.5 * scale, 0.4 * scale),
        RowIntent(7, 0.15 * scale, 0.16 * scale, 0.20 * scale, 0.10, turned=turned),
        RowIntent(5, 0.35 * scale, 0.16 * scale, 0.20 * scale, 0.10, clearance=clearance),
        DesignIntent(2.5, 0.62, 2.0),
    )


DRIVE = Drive(0.97, 0.92, 0.7, 5000.0)


def flow(scale: float = 1.0, *, sheared: bool = False) -> Axisymmetric:
    """u = kappa (1 + w)/2 with kappa = 1.75 - 0.35 CH, invented; uniform profile, or faster at the wall."""
    ladder = np.linspace(0.0, 0.95, 12)
    wake = np.sqrt(1.0 - ladder)
    speed = (1.75 - 0.35 * ladder) * 0.5 * (1.0 + wake)
    hub, wall = 0.15 * scale, 0.5 * scale
    station = np.linspace(hub, wall, 9)
    profile = np.ones((ladder.size, station.size))
    if sheared:
        slope = 0.12 * (1.0 - 0.3 * ladder)[:, None]
        mean = 2.0 / (wall**2 - hub**2) * (wall**4 - hub**4) / 4.0 / wall**2
        profile = 1.0 + slope * ((station / wall) ** 2 - mean)
    none, zero = np.zeros(0), np.zeros(ladder.size)
    pull = (1.0 - wake) * (2.0 * speed - 1.0 - wake)
    sheet = np.zeros((ladder.size, 0))
    return Axisymmetric(
        ladder,
        wake,
        speed,
        speed / 1.6,
        station,
        profile,
        pull,
        zero,
        zero,
        np.ones(ladder.size, dtype=bool),
        np.ones(ladder.size, dtype=np.int64),
        none,
        none,
        none,
        none,
        sheet,
        sheet,
        sheet,
        sheet,
        sheet,
        zero,
        float(np.pi * (wall**2 - hub**2)),
        (),
    )


def smooth_unit() -> Unit:
    """The same machine without a tip gap."""
    return unit(clearance=0.0)


def rough_unit() -> Unit:
    """The same machine with 0.3 mm sand roughness."""
    return replace(unit(), roughness=3e-4)
