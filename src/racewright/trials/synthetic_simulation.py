"""Makes an invented record piece by piece, so that it never sits in memory whole."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.trials.channel import Chunk
from racewright.trials.synthetic_flow import Memory, Turbulence
from racewright.trials.synthetic_plan import Plan
from racewright.trials.synthetic_sensor import SensorStream
from racewright.trials.synthetic_truth import INVENTED, TRUTH_CELL, Truth
from racewright.water import properties

Floats = NDArray[np.float64]


class Simulation:
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
        """The whole record, once."""
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
        plan = self.plan
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
