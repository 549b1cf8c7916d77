"""Blockage corrections: what each must offer, and the table of those there are."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Protocol

from racewright.errors import NoAnswerError
from racewright.flow.closure import JOIN
from racewright.flow.far_wake import far_wake
from racewright.trials.blockage_result import ChannelReading, Estimate
from racewright.trials.closed_channel import ChannelFlow, closed_channel
from racewright.trials.equivalent_stream import Equivalent, load_behind_wall, same_speed, settle
from racewright.trials.machine_response import MachineResponse
from racewright.trials.open_channel import open_channel

SLOWEST_WAKE = 0.3
"""Wake speed below which one-dimensional theory is not trusted (common practice: near Glauert's empirical range)."""
MODERATE = 0.2
"""Effective blockage up to which a disc stands for a rotor (Kinsey and Dumas 2017; from memory, low confidence)."""
FIRST_ORDER, FIRST_ORDER_LOAD = 0.03, 0.9
"""Correction and load up to which Glauert's first order is within 0.007 of the full theory (checked in the suite)."""
FLAT = 0.005
"""Fall of the surface beside the wake, over depth, up to which a rigid lid will do. Own choice."""
SAME_WALL = 0.01
"""Relative difference allowed between the blockage of the reading and that of the solved wall. Own choice."""


class Correction(Protocol):
    """One way from a channel to the open stream."""

    @property
    def title(self) -> str:
        """In words, with its source."""

    def __call__(
        self, reading: ChannelReading, free: MachineResponse | None, walled: MachineResponse | None
    ) -> Estimate:
        """Correct one reading.

        `free` is the duct's own u(CH) in an open stream (for the wall estimate also a bare disc's), `walled` that
        between round walls of equal area. Raises NoAnswerError with the reason where there is no answer.
        """


def _channel(reading: ChannelReading, load: float, kappa: float, surface: bool) -> ChannelFlow:
    effective = kappa * reading.blockage
    if effective >= 1.0:
        raise NoAnswerError(f"the effective blockage kappa B is {effective:.3g}; theory ends at 1")
    if not surface:
        return closed_channel(load, effective)
    if reading.froude is None:
        raise NoAnswerError("no Froude number is given, which an open channel needs")
    return open_channel(load, effective, reading.froude)


def _solve(
    step: Callable[[float, float], float], reading: ChannelReading, free: MachineResponse | None
) -> Equivalent:
    duct = free if reading.ducted else None
    return settle(step, reading.thrust_coefficient, duct, total=reading.thrust == "total")


def _machine_reasons(reading: ChannelReading, free: MachineResponse | None, load: float, kappa: float) -> list[str]:
    said = []
    if reading.ducted and free is None:
        said.append(
            "a bare-disc correction on a ducted rig is indicative: give the duct's own u(CT), test at two blockages"
        )
    if reading.ducted and free is not None and load > free.reach:
        said.append(f"the equivalent load {load:.3f} is above {free.reach:.3g}, to which the duct's flow is known")
    if load > JOIN:
        said.append(f"the equivalent load {load:.3f} is above {JOIN}, where momentum theory fails")
    if kappa * reading.blockage > MODERATE:
        said.append(
            f"the effective blockage {kappa * reading.blockage:.3f} is above {MODERATE}: a disc is a rough stand-in"
        )
    return said


def _lid_reason(reading: ChannelReading, bypass: float) -> list[str]:
    fall = 0.5 * (reading.froude or 0.0) ** 2 * (bypass * bypass - 1.0)
    if fall <= FLAT:
        return []
    return [f"beside the wake the surface falls by {100.0 * fall:.1f} % of the depth, which a rigid lid leaves out"]


def _estimate(
    method: str,
    title: str,
    reading: ChannelReading,
    one: Equivalent,
    reasons: list[str],
    disc_speed: float | None,
    flow: ChannelFlow | None,
    bypass: float | None = None,
) -> Estimate:
    q = one.q
    return Estimate(
        method,
        title,
        "indicative" if reasons else "valid",
        tuple(reasons),
        1.0 / q,
        reading.power_coefficient * q**3,
        reading.thrust_coefficient * q**2,
        reading.tip_speed_ratio * q,
        one.load * q**2,
        disc_speed,
        bypass if flow is None else flow.bypass_speed,
        one.thrust_ratio,
        None if flow is None or flow.froude == 0.0 else flow.drop,
    )


@dataclass(frozen=True)
class SameThrust:
    """Same rotor thrust, same flow through the rotor, same share of the duct in the thrust."""

    name: str
    title: str
    surface: bool

    def __call__(
        self, reading: ChannelReading, free: MachineResponse | None, walled: MachineResponse | None
    ) -> Estimate:
        def step(load: float, kappa: float) -> float:
            disc = _channel(reading, load, kappa, self.surface).disc_speed
            return disc / (disc * disc + 0.25 * load)

        one = _solve(step, reading, free)
        flow = _channel(reading, one.load, one.thrust_ratio, self.surface)
        if flow.disc_speed**2 < 0.25 * one.load:
            raise NoAnswerError(
                f"at a load of {one.load:.4g} the equivalent open stream would have to flow back in the wake; "
                "momentum theory ends where its load is 1"
            )
        reasons = _machine_reasons(reading, free, one.load * one.q**2, one.thrust_ratio)
        if flow.wake_speed < SLOWEST_WAKE:
            reasons.append(f"the wake's speed {flow.wake_speed:.3f} is below {SLOWEST_WAKE}")
        if not self.surface:
            reasons += _lid_reason(reading, flow.bypass_speed)
        return _estimate(self.name, self.title, reading, one, reasons, one.thrust_ratio * flow.disc_speed, flow)


@dataclass(frozen=True)
class BypassScaling:
    """The stream beside the wake stands for the open stream."""

    name: str
    title: str
    surface: bool

    def __call__(
        self, reading: ChannelReading, free: MachineResponse | None, walled: MachineResponse | None
    ) -> Estimate:
        def step(load: float, kappa: float) -> float:
            return 1.0 / _channel(reading, load, kappa, self.surface).bypass_speed

        one = _solve(step, reading, free)
        flow = _channel(reading, one.load, one.thrust_ratio, self.surface)
        reasons = _machine_reasons(reading, free, one.load * one.q**2, one.thrust_ratio)
        if not self.surface:
            reasons += _lid_reason(reading, flow.bypass_speed)
        return _estimate(self.name, self.title, reading, one, reasons, one.thrust_ratio * flow.disc_speed, flow)


@dataclass(frozen=True)
class FirstOrder:
    """U_F/U_T = 1 + kappa B CT / (4 sqrt(1 - CT))."""

    name: str
    title: str

    def __call__(
        self, reading: ChannelReading, free: MachineResponse | None, walled: MachineResponse | None
    ) -> Estimate:
        def step(load: float, kappa: float) -> float:
            if load >= 1.0:
                raise NoAnswerError(f"the load {load:.4g} is 1 or more, where the form has no value")
            return 1.0 / (1.0 + kappa * reading.blockage * load / (4.0 * math.sqrt(1.0 - load)))

        one = _solve(step, reading, free)
        reasons = _machine_reasons(reading, free, one.load * one.q**2, one.thrust_ratio)
        excess = 1.0 / one.q - 1.0
        if excess > FIRST_ORDER:
            reasons.append(f"first order: a correction of {excess:.3f} of the speed is above {FIRST_ORDER}")
        if one.load > FIRST_ORDER_LOAD:
            reasons.append(f"first order: the load {one.load:.3f} is above {FIRST_ORDER_LOAD}")
        return _estimate(self.name, self.title, reading, one, reasons, None, None)


@dataclass(frozen=True)
class Optimum:
    """CP (1 - B)^2 and CT (1 - B)^2/(1 + B), from one best disc to the other; kappa B for a duct."""

    name: str
    title: str

    def __call__(
        self, reading: ChannelReading, free: MachineResponse | None, walled: MachineResponse | None
    ) -> Estimate:
        def step(_load: float, kappa: float) -> float:
            effective = kappa * reading.blockage
            if effective >= 1.0:
                raise NoAnswerError(f"the effective blockage kappa B is {effective:.3g}; theory ends at 1")
            return (1.0 - effective) / math.sqrt(1.0 + effective)

        one = _solve(step, reading, free)
        reasons = _machine_reasons(reading, free, one.load * one.q**2, one.thrust_ratio)
        if not reading.at_peak_power:
            reasons.append("it holds at the peak of the power curve only")
        if reading.ducted:
            reasons.append("a duct's best load is not the 8/9 that the form is made for")
        factor = (1.0 - one.thrust_ratio * reading.blockage) ** 2
        return Estimate(
            self.name,
            self.title,
            "indicative" if reasons else "valid",
            tuple(reasons),
            power_coefficient=reading.power_coefficient * factor,
            thrust_coefficient=reading.thrust_coefficient * one.q**2,
            load=one.load * one.q**2,
            thrust_ratio=one.thrust_ratio,
        )


@dataclass(frozen=True)
class Wall:
    """The flow solver with and without a round wall of equal area."""

    name: str
    title: str

    def __call__(
        self, reading: ChannelReading, free: MachineResponse | None, walled: MachineResponse | None
    ) -> Estimate:
        if free is None or walled is None:
            raise NoAnswerError("the flow with and without a round wall was not given")
        if abs(walled.blockage / reading.blockage - 1.0) > SAME_WALL:
            raise NoAnswerError(
                f"the wall was solved for a blockage of {walled.blockage:.4g}, the reading has {reading.blockage:.4g}"
            )
        total = reading.ducted and reading.thrust == "total"
        load = load_behind_wall(reading.thrust_coefficient, walled) if total else reading.thrust_coefficient
        if load > walled.reach:
            raise NoAnswerError(f"the load {load:.4g} is above {walled.reach:.4g}, to which the flow was solved")
        q = same_speed(load, free, walled)
        equivalent = load * q * q
        one = Equivalent(q, load, free.thrust_ratio(equivalent))
        through = walled.speed(load)
        far = far_wake(load, 0.5 * through, walled.blockage**-0.5)
        reasons = _lid_reason(reading, far.bypass)
        if equivalent > JOIN:
            reasons.append(f"the equivalent load {equivalent:.3f} is above {JOIN}, where no sheet was solved")
        return _estimate(self.name, self.title, reading, one, reasons, through, None, far.bypass)


_ROWS: tuple[SameThrust | BypassScaling | FirstOrder | Optimum | Wall, ...] = (
    SameThrust(
        "closed",
        "closed channel, same thrust and rotor flow (Garrett and Cummins 2007; Barnsley and Wellicome 1990)",
        False,
    ),
    SameThrust("open", "open channel, same thrust and rotor flow (Houlsby, Draper and Oldfield 2008)", True),
    Wall("wall", "flow solver between round walls of equal area, same thrust and rotor flow"),
    BypassScaling("bypass_closed", "bypass speed of a closed channel (Whelan, Graham and Peiro 2009)", False),
    BypassScaling("bypass_open", "bypass speed of an open channel (Whelan, Graham and Peiro 2009)", True),
    FirstOrder("first_order", "first order in blockage (Glauert 1935)"),
    Optimum("optimum", "from best disc to best disc (Werle 2010)"),
)

CORRECTIONS: Mapping[str, Correction] = MappingProxyType({row.name: row for row in _ROWS})
"""Every correction by name, in the order of display."""
