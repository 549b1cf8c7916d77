"""A channel's unit against its calibration: 'rpm' with the factor 1 takes revolutions a minute for rad/s."""

from __future__ import annotations

from racewright.quantity.units import UNITS
from racewright.remark import Remark
from racewright.scheme.trials_rules import DIMENSIONS

APART = 1.25
"""Calibrated over nominal factor, or the inverse, from which the two contradict each other. Own choice."""
_ROOM = 288.15
_KELVINS_APART = 20.0
SI = {"speed": "m/s", "torque": "N m", "rotation": "rad/s", "force": "N", "length": "m", "temperature": "K"}
"""Unit that a calibration must give, by dimension."""


def unit_remarks(name: str, measures: str, unit: str, slope: float, at_room: float | None = None) -> list[Remark]:
    """A warning where a unit of the quantity that is measured and the calibration contradict each other.

    Parameters
    ----------
    name, measures, unit : str
        The channel, what it measures, the unit that it is logged in; any other unit, like mV, says nothing.
    slope : float
        |d value/d raw| of the calibration [SI unit per raw unit].
    at_room : float, optional
        What the calibration gives for 15 degC [K].
    """
    known = UNITS.get(unit)
    dimension = DIMENSIONS.get(measures)
    if known is None or dimension is None or known.dimension != dimension:
        return []
    si, ratio = SI[dimension], slope / known.factor
    if not 1.0 / APART <= ratio <= APART:
        text = (
            f"{name} is logged in {unit}, of which one is {known.factor:.4g} {si}, but its calibration makes"
            f" {slope:.4g} {si} of it: {_times(ratio)}. The calibration must give {si}; correct unit or calibration."
        )
        return [Remark("warning", text, "calibration")]
    if at_room is not None and known.offset and abs(at_room - _ROOM) > _KELVINS_APART:
        text = (
            f"{name} is logged in {unit}, but its calibration makes {at_room:.4g} K of 15 {unit}, which is"
            f" {_ROOM:.2f} K. The calibration must give kelvin; correct unit or calibration."
        )
        return [Remark("warning", text, "calibration")]
    return []


def _times(ratio: float) -> str:
    if ratio == 0.0:
        return "it does not follow the reading"
    return f"{ratio:.3g} times too much" if ratio > 1.0 else f"{1.0 / ratio:.3g} times too little"
