"""The rotor as its drive sees it: torque, thrust and roll moment over stream speed and tip-speed ratio."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError, NoAnswerError
from racewright.machine.drive_checks import Floats, growing, number
from racewright.machine.drive_surface import Surface

Mask = NDArray[np.bool_]


@dataclass(frozen=True)
class RotorMap:
    """Rotor torque and loads on a grid; between the nodes coefficients are interpolated, so speeds scale exactly.

    Every load is divided by the stream speed squared (the flow rate by the stream speed) before interpolation:
    where the coefficient does not change with speed, neither does the interpolation's error.

    Attributes
    ----------
    stream_speed : ndarray, shape (p,)
        Growing, > 0, two or more [m/s].
    tip_speed_ratio : ndarray, shape (q,)
        Growing, 0 or more, two or more; 0 is the held rotor [-].
    tip_radius : float
        Rotor tip radius that the ratio is taken at, > 0 [m].
    torque, thrust, roll_moment : ndarray, shape (p, q)
        Rotor torque [N m], total axial force [N], moment on the body [N m].
    flow_rate : ndarray, shape (p, q)
        Volume flow through the rotor [m3/s].
    annulus_area : float
        Area between hub and throat wall at the rotor, > 0 [m2].
    answered : ndarray of bool, shape (p, q)
        False where the stage gave no answer; the figures there are not used.
    closure : ndarray of bool, shape (p, q), or None
        True where a stated closure of the flow answers instead of a solved load; None: nowhere.

    Raises
    ------
    InputError
        For shapes that do not fit, or figures that are not finite where answered.
    """

    stream_speed: Floats
    tip_speed_ratio: Floats
    tip_radius: float
    torque: Floats
    thrust: Floats
    roll_moment: Floats
    flow_rate: Floats
    annulus_area: float
    answered: Mask
    closure: Mask | None = None

    def __post_init__(self) -> None:
        speed = growing("The rotor map's stream speed", self.stream_speed)
        ratio = growing("The rotor map's tip-speed ratio", self.tip_speed_ratio)
        number("The rotor map's least stream speed", float(speed[0]), 1e-6, 1e3, "m/s")
        number("The rotor map's tip radius", self.tip_radius, 1e-3, 1e3, "m")
        number("The rotor map's annulus area", self.annulus_area, 1e-6, 1e6, "m2")
        shape = (speed.size, ratio.size)
        if self.answered.shape != shape or self.answered.dtype != np.bool_:
            raise InputError(f"The rotor map's 'answered' wants true or false in the shape {shape}.")
        if self.closure is not None and (self.closure.shape != shape or self.closure.dtype != np.bool_):
            raise InputError(f"The rotor map's 'closure' wants true or false in the shape {shape}.")
        for name in ("torque", "thrust", "roll_moment", "flow_rate"):
            values = getattr(self, name)
            if values.shape != shape or not np.all(np.isfinite(values[self.answered])):
                raise InputError(
                    f"The rotor map's {name} wants finite numbers, where answered, in the shape {shape}."
                )

    @cached_property
    def surfaces(self) -> dict[str, Surface]:
        """Coefficient surfaces by name: load / U^2, flow rate / U."""
        square = np.square(self.stream_speed)[:, None]
        by = {"torque": square, "thrust": square, "roll_moment": square, "flow_rate": self.stream_speed[:, None]}
        return {
            name: Surface(self.stream_speed, self.tip_speed_ratio, getattr(self, name) / scale, self.answered)
            for name, scale in by.items()
        }

    def on_closure(self, stream_speed: Floats, rotor_speed: Floats) -> Mask:
        """True where one of the four nodes about a point [m/s], [rad/s] inside the map rests on a closure."""
        if self.closure is None:
            return np.zeros(np.shape(stream_speed), dtype=bool)
        ratio = self.ratio(stream_speed, rotor_speed)
        i = np.clip(np.searchsorted(self.stream_speed, stream_speed, side="right") - 1, 0, self.stream_speed.size - 2)
        j = np.clip(np.searchsorted(self.tip_speed_ratio, ratio, side="right") - 1, 0, self.tip_speed_ratio.size - 2)
        found: Mask = (
            self.closure[i, j] | self.closure[i + 1, j] | self.closure[i, j + 1] | self.closure[i + 1, j + 1]
        )
        return found

    @property
    def fastest_ratio(self) -> float:
        """Largest tip-speed ratio of the grid [-]."""
        return float(self.tip_speed_ratio[-1])

    def ratio(self, stream_speed: Floats | float, rotor_speed: Floats | float) -> Floats:
        """Tip-speed ratio [-] of stream speeds > 0 [m/s] and rotor speeds [rad/s]."""
        turning, stream = np.asarray(rotor_speed, dtype=np.float64), np.asarray(stream_speed, dtype=np.float64)
        found: Floats = turning * self.tip_radius / stream
        return found

    def torque_at(self, stream_speed: Floats | float, rotor_speed: Floats | float) -> Floats:
        """Rotor torque [N m] at stream speeds [m/s] and rotor speeds [rad/s]; NaN where the map does not answer."""
        speed = np.asarray(stream_speed, dtype=np.float64)
        found: Floats = self.surfaces["torque"].at(speed, self.ratio(speed, rotor_speed)) * speed**2
        return found


@dataclass(frozen=True)
class RotorLoads:
    """What the rotor does at stream speeds and rotor speeds, shape (n,) each.

    Attributes
    ----------
    stream_speed, rotor_speed : ndarray
        U [m/s], Omega [rad/s].
    torque, shaft_power : ndarray
        Rotor torque [N m], torque x rotor speed [W].
    thrust, roll_moment : ndarray
        Total axial force [N], moment on the body [N m].
    flow_rate : ndarray
        Volume flow through the rotor [m3/s].
    tip_speed : ndarray
        Omega R [m/s].
    strike_speed : ndarray
        Speed of the blade tip against water that comes along the axis, sqrt((Q/A)^2 + (Omega R)^2) [m/s]. Swirl is
        left out: swirl with the rotor makes the true speed lower while it is below twice the tip speed.
    """

    stream_speed: Floats
    rotor_speed: Floats
    torque: Floats
    shaft_power: Floats
    thrust: Floats
    roll_moment: Floats
    flow_rate: Floats
    tip_speed: Floats
    strike_speed: Floats


def rotor_loads(rotor: RotorMap, stream_speed: Floats | float, rotor_speed: Floats | float) -> RotorLoads:
    """Loads from the map.

    Parameters
    ----------
    rotor : RotorMap
    stream_speed : ndarray or float
        > 0 [m/s].
    rotor_speed : ndarray or float
        0 or more [rad/s].

    Raises
    ------
    InputError
        For numbers that are not finite or out of these ranges.
    NoAnswerError
        Outside the map, or in a part of it that the stage did not answer.
    """
    speed, turning = np.broadcast_arrays(
        np.atleast_1d(np.asarray(stream_speed, dtype=np.float64)), np.atleast_1d(np.asarray(rotor_speed, dtype=float))
    )
    finite = np.all(np.isfinite(speed)) and np.all(np.isfinite(turning))
    if not (finite and np.all(speed > 0.0) and np.all(turning >= 0.0)):
        raise InputError("Rotor loads want stream speeds above 0 m/s and rotor speeds of 0 rad/s or more.")
    ratio = rotor.ratio(speed, turning)
    missing = ~rotor.surfaces["torque"].answers(speed, ratio)
    if np.any(missing):
        k = int(np.argmax(missing))
        raise NoAnswerError(
            f"The rotor map has no answer at {speed[k]:.3g} m/s and tip-speed ratio {ratio[k]:.3g}; it spans "
            f"{rotor.stream_speed[0]:.3g} to {rotor.stream_speed[-1]:.3g} m/s and ratios "
            f"{rotor.tip_speed_ratio[0]:.3g} to {rotor.tip_speed_ratio[-1]:.3g}, less what the stage did not answer."
        )
    found = {name: surface.at(speed, ratio) for name, surface in rotor.surfaces.items()}
    torque, flow = found["torque"] * speed**2, found["flow_rate"] * speed
    tip = turning * rotor.tip_radius
    return RotorLoads(
        speed.copy(),
        turning.copy(),
        torque,
        torque * turning,
        found["thrust"] * speed**2,
        found["roll_moment"] * speed**2,
        flow,
        tip,
        np.hypot(flow / rotor.annulus_area, tip),
    )
