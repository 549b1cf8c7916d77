"""Invented test records of a half-kilowatt ducted model in a water channel, with the truth beside them.

Nothing here is measured. The model behind the record is not the one that the reduction uses: sensors follow a
sine-bent law, not a polynomial; the machine follows damped turbulence instant by instant; zeros walk at random.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.trials.channel import Channel, Chunk, Span
from racewright.trials.rig import Rig
from racewright.trials.synthetic_flow import Memory, Turbulence
from racewright.trials.synthetic_machine import Model
from racewright.trials.synthetic_sensor import Faults, Sensor, SensorStream
from racewright.water import properties

Floats = NDArray[np.float64]
INVENTED = "invented data: made by a formula with a seed, nothing here was measured"
"""Label that every invented record carries."""


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


@dataclass(frozen=True)
class Truth:
    """What was true over one chunk, by cells of half a second.

    Attributes
    ----------
    label : str
        Says that it is invented.
    start : float
        [s]
    cube, rotor_speed, torque, thrust, loss : ndarray
        Mean cube of the speed at the machine [m3/s3], rotor speed [rad/s], shaft torque [N m], thrust [N],
        share of torque lost to leaves [-].
    zero_torque : ndarray
        Wander of the torque's zero [N m].
    """

    label: str
    start: float
    cube: Floats
    rotor_speed: Floats
    torque: Floats
    thrust: Floats
    loss: Floats
    zero_torque: Floats


TRUTH_CELL = 0.5
"""Length of the truth's cells [s]."""


@dataclass(frozen=True)
class Campaign:
    """An invented campaign: what the engineer knows of it, and the record.

    Attributes
    ----------
    label : str
        Says that it is invented.
    plan : Plan
        With the model as built, true radius included.
    seed : int
    channels : tuple of Channel
        As the engineer believes them, calibrations fitted to invented calibration points.
    rig : Rig
        As the engineer believes it.
    tares, loads : tuple of Span
        Without the ramps.
    """

    label: str
    plan: Plan
    seed: int
    channels: tuple[Channel, ...]
    rig: Rig
    tares: tuple[Span, ...]
    loads: tuple[Span, ...]

    def record(self) -> Iterator[tuple[Chunk, Truth]]:
        """The record in chunks with the truth beside; the same on every call."""
        return _Simulation(self.plan, self.seed).run()

    def chunks(self) -> Iterator[Chunk]:
        """The record in chunks."""
        for chunk, _ in self.record():
            yield chunk


def synthetic_campaign(plan: Plan, seed: int) -> Campaign:
    """Draw an invented campaign: radius as built, calibrations, and the seeds of its record.

    Parameters
    ----------
    plan : Plan
        With `model.tip_radius` the stated radius; the built one is drawn about it.
    seed : int

    Returns
    -------
    Campaign
        Its record never sits in memory whole.
    """
    rng = np.random.default_rng(np.random.SeedSequence(seed, spawn_key=(1,)))
    model = plan.model
    built = 1.0 + plan.radius_uncertainty * float(rng.standard_normal())
    laws = [s.calibrate(rng)[0] for s in plan.sensors]
    spans: list[tuple[bool, Span]] = []
    at = 0.0
    for s in plan.stretches:
        if s.seconds <= plan.ramp:
            raise InputError(f"a stretch of {s.seconds:g} s is no longer than the ramp of {plan.ramp:g} s")
        first = at + (plan.ramp if at else 0.0)
        spans.append((s.tare, Span(first, at + s.seconds)))
        at += s.seconds
    rig = Rig(
        tip_radius=model.tip_radius, hub_radius=model.hub_radius, blades=model.blades, vanes=model.vanes,
        channel_width=plan.channel_width, depth=plan.depth, axis_height=plan.axis_height,
        blocked_radius=model.duct_radius, chord=0.3 * model.tip_radius, chord_radius=0.7 * model.tip_radius,
        temperature=plan.temperature, radius_uncertainty=plan.radius_uncertainty,
    )  # fmt: skip
    as_built = replace(model, tip_radius=model.tip_radius * built, hub_radius=model.hub_radius * built)
    return Campaign(
        INVENTED,
        replace(plan, model=as_built),
        seed,
        tuple(s.channel(law) for s, law in zip(plan.sensors, laws, strict=True)),
        rig,
        tuple(span for tare, span in spans if tare),
        tuple(span for tare, span in spans if not tare),
    )


class _Simulation:
    """Makes the record piece by piece."""

    def __init__(self, plan: Plan, seed: int) -> None:
        self.plan = plan
        flow, slow, drive, sensors, other = np.random.SeedSequence(seed, spawn_key=(2,)).spawn(5)
        rate, model = plan.rate, plan.model
        probes = sum(s.role == "speed" for s in plan.sensors)
        time = plan.length_scale / plan.stream_speed
        crossing = model.tip_radius / plan.stream_speed
        self.turbulence = Turbulence(flow, rate, plan.turbulence, time, crossing, probes)
        self.slow = Memory(np.random.default_rng(slow), 1.0 / TRUTH_CELL, plan.drift_time)
        drives, depths = drive.spawn(2)
        self.drive = Memory(np.random.default_rng(drives), rate, 0.3)
        self.level = Memory(np.random.default_rng(depths), rate, 2.0)
        self.streams = [
            SensorStream(s, own, plan.faults, plan.duration)
            for s, own in zip(plan.sensors, sensors.spawn(len(plan.sensors)), strict=True)
        ]
        self.nuts = np.sort(_events(other, plan.faults.nuts, plan.duration))
        self.angle = 0.0
        self.slow_last = float(self.slow.take(1)[0])
        self.knots, self.flow_knots, self.rotor_knots = self._schedule()

    def _schedule(self) -> tuple[Floats, Floats, Floats]:
        """Times, share of the stream speed, and rotor speed [rad/s]; straight lines between."""
        plan = self.plan
        times, flow, rotor, at = [], [], [], 0.0
        for s in plan.stretches:
            share = 0.0 if s.tare else 1.0
            speed = 0.0 if s.tare else s.tip_speed_ratio * plan.stream_speed / plan.model.tip_radius
            times += [at + (plan.ramp if at else 0.0), at + s.seconds]
            flow += [share, share]
            rotor += [speed, speed]
            at += s.seconds
        return np.array(times), np.array(flow), np.array(rotor)

    def run(self) -> Iterator[tuple[Chunk, Truth]]:
        plan = self.plan
        for s in plan.sensors:
            if abs(plan.rate / s.rate - round(plan.rate / s.rate)) > 1e-9:
                raise InputError(f"rate of sensor {s.name!r} must divide the highest rate {plan.rate:g} Hz")
        at = 0.0
        while at < plan.duration - 1e-9:
            seconds = min(plan.chunk, plan.duration - at)
            yield self._piece(at, seconds)
            at += seconds

    def _piece(self, at: float, seconds: float) -> tuple[Chunk, Truth]:
        plan, model = self.plan, self.plan.model
        n = round(seconds * plan.rate)
        time = at + np.arange(n) / plan.rate
        share = np.interp(time, self.knots, self.flow_knots)
        slow = self._slow(seconds, n)
        machine, probes = self.turbulence.take(n)
        speed = plan.stream_speed * share * (1.0 + slow + machine)
        held = np.interp(time, self.knots, self.rotor_knots) * (1.0 + plan.controller * self.drive.take(n))
        angle = self.angle + np.cumsum(held) / plan.rate
        self.angle = float(angle[-1] % (2.0 * np.pi))
        rotor = held * (1.0 + 0.0005 * np.sin(angle))
        water = properties(plan.temperature + 0.2 * (at + 0.5 * seconds) / 3600.0, "fresh")
        torque, thrust, loss = self._loads(time, speed, rotor, angle, water.density)
        depth = plan.depth + 0.002 * self.level.take(n)
        profile = iter(plan.profile or [1.0] * len(probes))
        fluctuation = iter(probes)
        values: dict[str, Floats] = {}
        missing = {}
        zero = np.zeros(1)
        for stream in self.streams:
            sensor = stream.sensor
            skip = round(plan.rate / sensor.rate)
            if sensor.role == "speed":
                true = next(profile) * plan.stream_speed * share * (1.0 + slow + next(fluctuation))
            elif sensor.role == "temperature":
                true = plan.temperature + 0.2 * time / 3600.0
            elif sensor.role == "other":
                true = np.full(n, 0.8 * sensor.full_scale)
            else:
                true = {"torque": torque, "rotor_speed": rotor, "thrust": thrust, "level": depth}[sensor.role]
            values[sensor.name], blank, walked = stream.take(true[::skip])
            if blank.any():
                missing[sensor.name] = blank
            zero = walked if sensor.role == "torque" else zero
        cells = round(seconds / TRUTH_CELL)
        parts = [_mean(x, cells) for x in (speed**3, rotor, torque, thrust, loss, zero)]
        return Chunk(at, values, missing), Truth(INVENTED, at, *parts)

    def _slow(self, seconds: float, n: int) -> Floats:
        """Slow change of the flow, straight between half-second values."""
        knots = np.concatenate(([self.slow_last], self.slow.take(round(seconds / TRUTH_CELL))))
        self.slow_last = float(knots[-1])
        return self.plan.drift * np.interp(np.arange(n) / self.plan.rate, np.arange(knots.size) * TRUTH_CELL, knots)

    def _loads(
        self, time: Floats, speed: Floats, rotor: Floats, angle: Floats, density: float
    ) -> tuple[Floats, Floats, Floats]:
        """Shaft torque [N m], thrust [N] and share lost to leaves [-], instant by instant."""
        plan, model = self.plan, self.plan.model
        loss = plan.leaves.at(time) if plan.leaves else np.zeros(time.size)
        moving = (speed > 0.05) & (rotor > 0.05)
        ratio = np.where(moving, rotor * model.tip_radius / np.where(moving, speed, 1.0), 0.1)
        force = 0.5 * density * model.annulus_area * speed * np.abs(speed)
        ripple = 1.0 + model.turn_ripple * np.cos(angle + 0.3)
        ripple += model.blade_ripple * np.cos(model.blades * angle + 1.0)
        ripple += model.vane_ripple * np.cos(model.vanes * angle)
        torque = np.where(moving, force * model.tip_radius * model.power_built(ratio) / ratio, 0.0)
        torque = torque * ripple * (1.0 - loss)
        thrust = force * model.thrust_built(np.where(moving, ratio, 0.0)) * (1.0 - 0.3 * loss)
        for nut in self.nuts[(self.nuts > time[0] - 0.1) & (self.nuts < time[-1])]:
            pulse = np.where((time >= nut) & (time < nut + 0.015), np.sin(np.pi * (time - nut) / 0.015), 0.0)
            torque = torque * (1.0 + 3.0 * pulse)
            thrust = thrust * (1.0 + 3.0 * pulse)
        return torque, thrust, loss


def _events(seed: np.random.SeedSequence, per_hour: float, duration: float) -> Floats:
    rng = np.random.default_rng(seed)
    return rng.uniform(0.0, duration, rng.poisson(per_hour * duration / 3600.0))


def _mean(x: Floats, cells: int) -> Floats:
    """Means over equal cells; a series that does not divide evenly is cut at the nearest places."""
    edges = np.round(np.linspace(0, x.size, cells + 1)).astype(np.int64)
    return np.asarray(np.add.reduceat(x, edges[:-1]) / np.diff(edges))


@dataclass(frozen=True)
class RunTruth:
    """What was true over a span.

    Attributes
    ----------
    label : str
        Says that it is invented.
    stream_speed : float
        Cube mean at the machine [m/s].
    rotor_speed : float
        [rad/s]
    tip_speed_ratio, power_coefficient, thrust_coefficient : float
        The coefficients are the built machine's curves at that ratio, leaves taken off [-].
    design_power_coefficient : float
        The design's curve at that ratio [-].
    loss : float
        Mean share of the torque lost to leaves [-].
    """

    label: str
    stream_speed: float
    rotor_speed: float
    tip_speed_ratio: float
    power_coefficient: float
    thrust_coefficient: float
    design_power_coefficient: float
    loss: float


def truth_over(campaign: Campaign, truths: Sequence[Truth], start: float, end: float) -> RunTruth:
    """Put the truth of some chunks together over a span [s]."""
    model = campaign.plan.model
    time = np.concatenate([t.start + TRUTH_CELL * (np.arange(t.cube.size) + 0.5) for t in truths])
    inside = (time > start) & (time < end)
    if not inside.any():
        raise InputError(f"no truth was kept between {start:g} s and {end:g} s")
    cube, rotor, loss = (
        float(np.concatenate([getattr(t, name) for t in truths])[inside].mean())
        for name in ("cube", "rotor_speed", "loss")
    )
    speed = float(np.cbrt(cube))
    ratio = rotor * model.tip_radius / speed
    at = np.array([ratio])
    return RunTruth(
        INVENTED, speed, rotor, ratio, float(model.power_built(at)[0]) * (1.0 - loss),
        float(model.thrust_built(at)[0]) * (1.0 - 0.3 * loss), float(model.power(at)[0]), loss,
    )  # fmt: skip
