"""What a cable from the machine to the village loses."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError, NoAnswerError
from racewright.remark import Remark
from racewright.supply.door import fraction, not_negative, positive, power_row

Floats = NDArray[np.float64]

COPPER = 0.01724138e-6
"""Resistivity of annealed copper at 20 degC (IEC 60028, from memory) [ohm m]."""
COPPER_RISE = 0.00393
"""Its relative growth per kelvin, referred to 20 degC (IEC 60028, from memory) [1/K]."""
ROOM = 293.15

CAUTION = Remark(
    "caution",
    "Voltage drop and loss only: current rating, protection, earthing and laying of the cable follow the local code. "
    "A licensed electrician decides.",
    "cable",
)


@dataclass(frozen=True, slots=True)
class Cable:
    """A cable from sender to taker.

    Attributes
    ----------
    length : float
        One way, >= 0 [m].
    conductor_area : float
        Metal of one conductor, > 0 [m2].
    voltage : float
        At the sender; between conductors, for three phases line to line, root mean square, > 0 [V].
    kind : {'direct', 'single phase', 'three phase'}
    power_factor : float
        Above 0 to 1; 1 for direct current; default 1, a unity load [-].
    temperature : float
        Of the conductor; default 293.15 K, as resistivity is tabled; 343.15 K is a fully loaded one [K].
    resistivity : float
        At 20 degC; default copper [ohm m].
    """

    length: float
    conductor_area: float
    voltage: float
    kind: Literal["direct", "single phase", "three phase"]
    power_factor: float = 1.0
    temperature: float = ROOM
    resistivity: float = COPPER

    def __post_init__(self) -> None:
        not_negative("length of the cable", self.length, "m", 300.0)
        positive("area of a conductor", self.conductor_area, "m2", 16e-6)
        positive("voltage at the sender", self.voltage, "V", 400.0)
        positive("resistivity", self.resistivity, "ohm m", COPPER)
        fraction("power factor", self.power_factor, 0.95)
        if self.kind not in ("direct", "single phase", "three phase"):
            raise InputError(f"the cable is {self.kind!r}; wanted 'direct', 'single phase' or 'three phase'")
        if self.power_factor == 0.0 or (self.kind == "direct" and self.power_factor != 1.0):
            raise InputError("the power factor must be above 0, and 1 for direct current")
        if not (math.isfinite(self.temperature) and 150.0 <= self.temperature <= 500.0):
            raise InputError(f"the conductor is at {self.temperature!r} K; wanted 150 to 500 K, e.g. 293.15 K")

    @property
    def resistance(self) -> float:
        """Of one conductor [ohm]."""
        warm = 1.0 + COPPER_RISE * (self.temperature - ROOM)
        return self.resistivity * warm * self.length / self.conductor_area

    @property
    def _seen(self) -> float:
        """Resistance r for which drop = r P / V and loss = r (P / V)^2 at the sender's voltage V [ohm]."""
        if self.kind == "three phase":
            return self.resistance / self.power_factor**2
        return 2.0 * self.resistance / self.power_factor**2


@dataclass(frozen=True, slots=True)
class CableFlow:
    """Power through a cable, shape (n,) each.

    Attributes
    ----------
    sent, received, loss : ndarray
        [W]
    voltage : ndarray
        At the taker [V].
    drop : ndarray
        Of voltage, over the sender's [-].
    remarks : tuple of Remark
    """

    sent: Floats
    received: Floats
    loss: Floats
    voltage: Floats
    drop: Floats
    remarks: tuple[Remark, ...]


def cable_from_sender(cable: Cable, sent: ArrayLike) -> CableFlow:
    """What arrives of powers sent at the sender's voltage.

    Reactance is left out: short low-voltage cables are resistive. At a power factor below 1 the voltage falls as if
    current and drop were in phase, which is a little too much.

    Raises
    ------
    InputError
        Powers negative or not finite.
    NoAnswerError
        A power that the whole voltage would be lost under.
    """
    power = power_row("power sent", sent, None)
    drop = cable._seen * cable.power_factor * power / cable.voltage**2
    loss = cable._seen * (power / cable.voltage) ** 2
    if (drop >= 1.0).any():
        raise NoAnswerError(
            f"{power.max():.4g} W would lose its whole voltage in the cable; wanted a thicker or shorter cable, or "
            f"more than {cable.voltage:.4g} V"
        )
    return CableFlow(power, power - loss, loss, cable.voltage * (1.0 - drop), drop, _told(drop))


def cable_to_taker(cable: Cable, taken: ArrayLike) -> CableFlow:
    """What must be sent at the sender's voltage for powers to arrive, at unity power factor.

    The larger root V = (Vs + sqrt(Vs^2 - 4 r P)) / 2 is the one that stands.

    Raises
    ------
    InputError
        Powers negative or not finite; a power factor below 1.
    NoAnswerError
        More than Vs^2 / (4 r) can never arrive.
    """
    if cable.power_factor != 1.0:
        raise InputError("power wanted at the far end is worked out at a power factor of 1 only")
    power, r, sender = power_row("power taken", taken, None), cable._seen, cable.voltage
    inside = sender**2 - 4.0 * r * power
    if (inside < 0.0).any():
        raise NoAnswerError(
            f"{power.max():.4g} W can not arrive through this cable: at {sender:g} V and {r:.4g} ohm no more than "
            f"{sender**2 / (4.0 * r):.4g} W does"
        )
    voltage = 0.5 * (sender + np.sqrt(inside))
    loss = r * (power / voltage) ** 2
    drop = 1.0 - voltage / sender
    return CableFlow(power + loss, power, loss, voltage, drop, _told(drop))


def _told(drop: Floats) -> tuple[Remark, ...]:
    most = float(drop.max())
    if most <= 0.05:
        return (CAUTION,)
    text = (
        f"Voltage falls by {100.0 * most:.3g} %; more than about 5 % is usually refused (common practice, no source)."
    )
    return (CAUTION, Remark("caution", text, "voltage drop"))
