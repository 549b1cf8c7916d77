"""The whole drive from rotor shaft to terminals: gear, generator, converter, and what else hangs on the shaft."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.machine.drive import Drive
from racewright.machine.drive_checks import Floats, finite, number
from racewright.machine.drive_gear import Gear
from racewright.machine.drive_generator import ConstantGenerator, Generator


@dataclass(frozen=True)
class ChainOutput:
    """Power along the drive, shape (n,) each.

    Attributes
    ----------
    electrical_power : ndarray
        At the terminals, 0 where not answered [W].
    gear_loss, generator_loss, converter_loss : ndarray
        Each by its own part [W].
    answered : ndarray of bool
        False beyond what is known of the generator.
    """

    electrical_power: Floats
    gear_loss: Floats
    generator_loss: Floats
    converter_loss: Floats
    answered: NDArray[np.bool_]


@dataclass(frozen=True)
class DriveChain:
    """Gear, generator, converter.

    Attributes
    ----------
    gear : Gear
    generator : Generator
    converter_efficiency : float
        Terminals over generator, 0.05 to 1, constant [-].
    rotor_inertia : float
        Rotor with the water it carries along, and all that turns at its speed; 0 = not given [kg m2].
    generator_inertia : float
        What turns at the generator's speed, >= 0 [kg m2].
    """

    gear: Gear
    generator: Generator
    converter_efficiency: float = 1.0
    rotor_inertia: float = 0.0
    generator_inertia: float = 0.0

    def __post_init__(self) -> None:
        number("The converter's efficiency", self.converter_efficiency, 0.05, 1.0)
        number("The rotor's inertia", self.rotor_inertia, 0.0, 1e12, "kg m2")
        number("The generator's inertia", self.generator_inertia, 0.0, 1e12, "kg m2")

    @property
    def inertia(self) -> float:
        """At the rotor shaft: rotor + ratio^2 x generator [kg m2]; InputError when the rotor's is not given."""
        if self.rotor_inertia == 0.0:
            raise InputError("Overspeed and braking want the rotor's inertia, e.g. 40 kg m2 for a river unit of 1 m.")
        return self.rotor_inertia + self.gear.ratio**2 * self.generator_inertia

    @property
    def breakaway_torque(self) -> float:
        """At the rotor shaft, to set the standing drive turning: gear friction + ratio x cogging [N m]."""
        return self.gear.standstill_torque + self.gear.ratio * self.generator.cogging_torque

    def idle_torque(self, rotor_speed: Floats) -> Floats:
        """At the rotor shaft, to keep the drive turning without current [N m]."""
        return self.gear.rotor_torque(self.generator.idle_torque(self.gear.ratio * rotor_speed))

    def output(self, rotor_torque: Floats, rotor_speed: Floats) -> ChainOutput:
        """Power along the drive at rotor torques [N m] and speeds >= 0 [rad/s]; none from torque below 0."""
        torque = np.maximum(finite("The rotor's torque", rotor_torque), 0.0)
        rotor_speed = finite("The rotor's speed", rotor_speed, least=0.0)
        generator = self.generator.output(self.gear.generator_torque(torque), self.gear.ratio * rotor_speed)
        made = generator.electrical_power
        return ChainOutput(
            made * self.converter_efficiency,
            self.gear.loss(torque, rotor_speed),
            generator.loss,
            made * (1.0 - self.converter_efficiency),
            generator.answered,
        )


def plain_chain(drive: Drive) -> DriveChain:
    """The drive of constant efficiencies: gear without drag, generator with its converter, no inertia given."""
    gear = Gear(torque_share=1.0 - number("The gear's efficiency", drive.gear_efficiency, 0.3, 1.0))
    return DriveChain(gear, ConstantGenerator(drive.generator_efficiency))
