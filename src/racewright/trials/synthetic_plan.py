"""What an invented campaign is made of: stretches, sensors, water, faults, leaves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from racewright.trials.synthetic_machine import Model
from racewright.trials.synthetic_sensor import Faults, Sensor

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Stretch:
    """One stretch of an invented campaign.

    Attributes
    ----------
    seconds : float
        Its first `ramp` seconds lead over from the one before [s].
    tip_speed_ratio : float
        On the mean stream speed; 0 holds the rotor [-].
    tare : bool
        Still water, rotor standing.
    """

    seconds: float
    tip_speed_ratio: float = 0.0
    tare: bool = False


@dataclass(frozen=True)
class Leaves:
    """Leaves that gather on the vanes.

    Attributes
    ----------
    start, seconds : float
        When the loss begins and how long it grows, in a straight line [s].
    loss : float
        Share of the torque lost in the end, at equal speed and flow; thrust loses 0.3 of it [-].
    cleaned : float
        When they are taken off; infinity for never [s].
    left : float
        Share of the loss that stays after cleaning [-].
    """

    start: float
    seconds: float
    loss: float
    cleaned: float = float("inf")
    left: float = 0.0

    def at(self, time: Floats) -> Floats:
        """Share of the torque lost [-]."""
        grown = self.loss * np.clip((time - self.start) / self.seconds, 0.0, 1.0)
        return np.where(time < self.cleaned, grown, self.left * self.loss)


def invented_sensors(fast: float = 50.0) -> tuple[Sensor, ...]:
    """Eight invented channels; `fast` is the rate of torque, rotor speed and thrust [Hz]."""
    # fmt: off
    return (
        Sensor("flow_a", "speed", "V", fast / 2, 4.0, 8.0, 0.5, 0.10, 0.01, 0.0005, reference=0.004),
        Sensor("flow_b", "speed", "V", fast / 2, 4.0, 8.0, 0.45, 0.12, 0.01, 0.0005, reference=0.004),
        Sensor("shaft_torque", "torque", "mV", fast, 60.0, 30.0, 0.8, 0.06, 0.08, 0.001, 0.004, 0.002, True),
        Sensor("shaft_speed", "rotor_speed", "counts", fast, 40.0, 4000.0, 0.0, 0.0, 0.002, 1.0, reference=0.0002),
        Sensor("axial_force", "thrust", "mV", fast, 800.0, 20.0, -0.3, 0.08, 1.0, 0.0005, 0.05, 0.003, True),
        Sensor("depth_gauge", "level", "V", 10.0, 2.0, 10.0, 0.0, 0.03, 0.0005, 0.001, span=(0.2, 1.1)),
        Sensor("water_temperature", "temperature", "counts", 1.0, 320.0, 32000.0, 0.0, 0.0, 0.01, 1.0,
               span=(0.85, 0.98)),
        Sensor("bus_voltage", "other", "V", 10.0, 60.0, 5.0, 0.0, 0.0, 0.05, 0.001),
    )
    # fmt: on


@dataclass(frozen=True)
class Plan:
    """An invented campaign.

    Attributes
    ----------
    stretches : sequence of Stretch
    model : Model
    sensors : sequence of Sensor
        Rates must divide the highest one.
    stream_speed : float
        Mean, before drift [m/s].
    turbulence : float
        Intensity at a point [-].
    length_scale : float
        Of the turbulence [m].
    drift : float
        Standard deviation of the slow change of the flow, over its mean [-].
    drift_time : float
        Memory of the slow change [s].
    controller : float
        Standard deviation of the held rotor speed, over its mean [-].
    channel_width, depth, axis_height : float
        [m]
    temperature : float
        Of the water; it rises 0.2 K an hour [K].
    faults : Faults
    leaves : Leaves or None
    ramp : float
        [s]
    chunk : float
        Length of the chunks handed out [s].
    radius_uncertainty : float
        Relative standard deviation of the built radius about the stated one [-].
    profile : sequence of float
        Speed at each probe over the mean of the capture area [-].
    """

    stretches: Sequence[Stretch] = (
        Stretch(40.0, tare=True),
        Stretch(90.0, 1.6),
        Stretch(90.0, 2.1),
        Stretch(90.0, 2.6),
        Stretch(60.0, tare=True),
    )
    model: Model = field(default_factory=Model)
    sensors: Sequence[Sensor] = field(default_factory=invented_sensors)
    stream_speed: float = 2.0
    turbulence: float = 0.05
    length_scale: float = 0.4
    drift: float = 0.01
    drift_time: float = 600.0
    controller: float = 0.002
    channel_width: float = 2.4
    depth: float = 1.6
    axis_height: float = 0.8
    temperature: float = 287.15
    faults: Faults = field(default_factory=Faults)
    leaves: Leaves | None = None
    ramp: float = 10.0
    chunk: float = 60.0
    radius_uncertainty: float = 0.001
    profile: Sequence[float] = ()

    @property
    def duration(self) -> float:
        """[s]"""
        return sum(s.seconds for s in self.stretches)

    @property
    def rate(self) -> float:
        """The highest rate [Hz]."""
        return max(s.rate for s in self.sensors)
