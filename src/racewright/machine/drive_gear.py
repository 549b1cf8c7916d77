"""The gear between rotor and generator: ratio, running losses, friction at standstill."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from racewright.machine.drive_checks import Floats, number


@dataclass(frozen=True)
class Gear:
    """A gear with the shaft's bearings and seals; ratio 1 and no losses is a plain direct drive.

    Attributes
    ----------
    ratio : float
        Generator speed over rotor speed, 1 to 500 [-].
    torque_share : float
        Share of the rotor's torque lost in the teeth, 0 to 0.7 [-].
    drag_torque : float
        Torque lost at any load while it turns (churning, bearings, seals), at the rotor shaft, >= 0 [N m].
    standstill_torque : float
        Friction that must be broken before it turns, at the rotor shaft, >= 0 [N m].
    """

    ratio: float = 1.0
    torque_share: float = 0.0
    drag_torque: float = 0.0
    standstill_torque: float = 0.0

    def __post_init__(self) -> None:
        number("The gear ratio", self.ratio, 1.0, 500.0)
        number("The gear's share of torque lost", self.torque_share, 0.0, 0.7)
        number("The gear's drag torque", self.drag_torque, 0.0, 1e8, "N m")
        number("The gear's standstill torque", self.standstill_torque, 0.0, 1e8, "N m")

    def generator_torque(self, rotor_torque: Floats) -> Floats:
        """Torque at the generator shaft [N m] from torque at the rotor shaft [N m]; not below 0."""
        passed: Floats = (rotor_torque * (1.0 - self.torque_share) - self.drag_torque) / self.ratio
        return np.maximum(passed, 0.0)

    def rotor_torque(self, generator_torque: Floats) -> Floats:
        """Torque wanted at the rotor shaft [N m] to bring a torque of 0 or more to the generator [N m]."""
        wanted: Floats = (generator_torque * self.ratio + self.drag_torque) / (1.0 - self.torque_share)
        return wanted

    def loss(self, rotor_torque: Floats, rotor_speed: Floats) -> Floats:
        """Power lost in the gear [W]: (drag + share x torque) x speed, no more than comes in."""
        lost: Floats = np.minimum(self.drag_torque + self.torque_share * rotor_torque, rotor_torque) * rotor_speed
        return lost
