"""The band of yearly energy from all causes: speed by integrating anew, power, and others."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.place.speed_uncertainty import SpeedCause, combined
from racewright.remark import Remark
from racewright.supply.door import SECONDS_PER_YEAR
from racewright.supply.power_table import PowerTable, climate
from racewright.uncertainty import Band

Floats = NDArray[np.float64]

COVERAGE = 2.0
"""Standard uncertainties on each side of a band: about 95 % [-]."""

_STEP = 0.01

_PARTS = (-1.0, -0.75, -0.5, -0.25, 0.0, 0.25, 0.5, 0.75, 1.0)


@dataclass(frozen=True)
class EnergyCause:
    """Another cause of doubt about energy, not through speed.

    Attributes
    ----------
    cause : str
        Such as 'years on record' or 'availability'.
    relative_standard : float
        Of the yearly energy, 0 to 1 [-].
    """

    cause: str
    relative_standard: float

    def __post_init__(self) -> None:
        if not (math.isfinite(self.relative_standard) and 0.0 <= self.relative_standard <= 1.0):
            raise InputError(f"the uncertainty from {self.cause} is {self.relative_standard!r}; wanted 0 to 1")


@dataclass(frozen=True)
class BandRow:
    """What one cause alone does to the yearly energy.

    Attributes
    ----------
    cause : str
    low, high : float
        Energy at both ends of the cause, about 95 % [J].
    relative_standard : float
        Standard uncertainty of energy from it, over the energy, in the small [-].
    """

    cause: str
    low: float
    high: float
    relative_standard: float


@dataclass(frozen=True)
class EnergyBand:
    """Yearly energy with all its causes of doubt.

    Attributes
    ----------
    total : Band
        Root of squares of speed together, power and others, each side for itself [J].
    speed_relative : float
        Standard uncertainty of speed, all causes together [-].
    sensitivity : float
        Relative change of energy per relative change of speed: 3 for a cubic, 0 at rated power [-].
    relative_standard : float
        Of energy, in the small: root of squares [-].
    rows : tuple of BandRow
        Largest first; speed causes one by one, then power and others.
    remarks : tuple of Remark
    """

    total: Band
    speed_relative: float
    sensitivity: float
    relative_standard: float
    rows: tuple[BandRow, ...]
    remarks: tuple[Remark, ...]


def energy_band(
    edge: Floats,
    share: Floats,
    table: PowerTable,
    power_low: Floats,
    power_high: Floats,
    speed_causes: tuple[SpeedCause, ...],
    others: tuple[EnergyCause, ...] = (),
) -> EnergyBand:
    """Integrate the power curve again at all speeds times exp(-2u) to exp(2u), and join the bands.

    The ends are the least and the most energy over that range: where faster water passes the curve's last speed the
    machine stands still, so the fastest water need not give the most. An error of the site's speed moves every bin
    the same way; so it is integrated, not added bin by bin.

    Parameters
    ----------
    edge, share : ndarray, shapes (b+1,), (b,)
        The climate [m/s], [-].
    table : PowerTable
    power_low, power_high : ndarray, shape (n,)
        Band of the power curve, about 95 % [W].
    speed_causes : tuple of SpeedCause
    others : tuple of EnergyCause

    Raises
    ------
    InputError
        A crossed power band, or arrays that break the rules of `yearly_energy`.
    """
    edge, share = climate(edge, share)
    low, high = np.asarray(power_low, dtype=np.float64), np.asarray(power_high, dtype=np.float64)
    if low.shape != table.power.shape or high.shape != table.power.shape:
        raise InputError("the power band wants one value for each speed of the power curve")
    if not ((low >= 0.0) & (low <= table.power) & (table.power <= high) & np.isfinite(high)).all():
        raise InputError("the power band is crossed; wanted 0 <= power_low <= power <= power_high at every speed")

    def energy(factor: float = 1.0, power: Floats | None = None) -> float:
        pieces = table.over(edge * factor, share)
        whole = float(np.sum(pieces.integral(table.speed, table.power if power is None else power)))
        return table.availability * SECONDS_PER_YEAR * whole

    value, speed = energy(), combined(speed_causes)
    slope = 0.0
    if value > 0.0:
        slope = (energy(1.0 + _STEP) - energy(1.0 - _STEP)) / (2.0 * _STEP * value)
    rows = [_speed_row(cause.cause, cause.speed_error, slope, energy) for cause in speed_causes]
    together = _speed_row("speed", speed, slope, energy)
    power = _row("power curve", energy(power=low), energy(power=high), value)
    rest = [_row(o.cause, *_both(value, COVERAGE * o.relative_standard), value) for o in others]
    parts = [together, power, *rest]
    down = math.sqrt(math.fsum(max(0.0, value - part.low) ** 2 for part in parts))
    up = math.sqrt(math.fsum(max(0.0, part.high - value) ** 2 for part in parts))
    beyond = table.over(edge * math.exp(COVERAGE * speed), share).share_above(float(table.speed[-1]))
    basis = (
        "speed of the site, power curve" + "".join(f", {o.cause}" for o in others) + "; root of squares, about 95 %"
    )
    return EnergyBand(
        total=Band(max(0.0, value - down), value, value + up, basis),
        speed_relative=speed,
        sensitivity=slope,
        relative_standard=math.sqrt(math.fsum(part.relative_standard**2 for part in parts)),
        rows=tuple(sorted([*rows, power, *rest], key=lambda row: -row.relative_standard)),
        remarks=_remarks(speed, slope, beyond),
    )


def _speed_row(cause: str, error: float, slope: float, energy: Callable[[float], float]) -> BandRow:
    found = [energy(math.exp(COVERAGE * error * part)) for part in _PARTS]
    return BandRow(cause, min(found), max(found), abs(slope) * error)


def _row(cause: str, low: float, high: float, value: float) -> BandRow:
    return BandRow(cause, low, high, (high - low) / (2.0 * COVERAGE * value) if value > 0.0 else 0.0)


def _both(value: float, relative: float) -> tuple[float, float]:
    return value * max(0.0, 1.0 - relative), value * (1.0 + relative)


def _remarks(speed: float, slope: float, beyond: float) -> tuple[Remark, ...]:
    if speed == 0.0:
        text = "No uncertainty of the site's speed was given: the band holds the machine only."
        return (Remark("caution", text, "band"),)
    text = (
        f"The site's speed is known to {100 * speed:.0f} % (one standard uncertainty) and energy moves "
        f"{slope:.1f} times as much."
    )
    told = [Remark("caution" if speed > 0.1 else "note", text, "band")]
    if beyond > 0.001:
        text = (
            f"At the fast end of the band {100 * beyond:.2g} % of the year passes the power curve's last speed and "
            "counts no energy; give the curve further if the machine runs there."
        )
        told.append(Remark("caution", text, "power curve"))
    return tuple(told)
