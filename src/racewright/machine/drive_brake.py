"""The mechanical brake and the dump load, as things."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.machine.drive_checks import number


@dataclass(frozen=True)
class Brake:
    """A friction brake, its figures at the rotor shaft.

    Attributes
    ----------
    torque : float
        While it slips, at the rotor shaft (times the gear ratio where it sits on the fast shaft), > 0 [N m].
    heat : float
        That its parts may take in one stop, > 0 [J].
    """

    torque: float
    heat: float

    def __post_init__(self) -> None:
        number("The brake's torque", self.torque, 1e-3, 1e9, "N m")
        number("The brake's heat", self.heat, 1e-3, 1e15, "J")


@dataclass(frozen=True)
class DumpLoad:
    """A resistor that takes what the consumers do not.

    Attributes
    ----------
    power : float
        Largest electrical power, > 0 [W].
    duration : float
        Time that it bears its largest power, > 0 [s].
    """

    power: float
    duration: float

    def __post_init__(self) -> None:
        number("The dump load's power", self.power, 1e-3, 1e9, "W")
        number("The dump load's duration", self.duration, 1e-3, 1e9, "s")

    def bears(self, power: float, duration: float) -> bool:
        """True when it takes `power` [W] for `duration` [s]: neither above its own. No credit for less power."""
        wanted = number("The power to dump", power, 0.0, 1e9, "W")
        lasting = number("The time to dump", duration, 0.0, 1e9, "s")
        return wanted <= self.power and (wanted == 0.0 or lasting <= self.duration)
