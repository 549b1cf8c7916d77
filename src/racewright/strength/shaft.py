"""A shaft under torque, bending and thrust."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.errors import InputError
from racewright.remark import Remark
from racewright.safety import SafetyBasis, safety_basis
from racewright.strength.door import finite, not_negative, positive, within


@dataclass(frozen=True, slots=True)
class ShaftStress:
    """Stresses at the surface of a shaft, notch factors included.

    Attributes
    ----------
    torsion, bending, thrust : float
        Shear stress of the torque, stress of the bending (both >= 0), stress of the thrust (tension positive) [Pa].
    largest_shear : float
        Largest shear stress in any plane [Pa].
    von_mises : float
        [Pa]
    remarks : tuple of Remark
    safety : SafetyBasis
    """

    torsion: float
    bending: float
    thrust: float
    largest_shear: float
    von_mises: float
    remarks: tuple[Remark, ...]
    safety: SafetyBasis


def shaft_torque(power: float, rotor_speed: float) -> float:
    """Torque that carries a power at a speed [N m].

    Parameters
    ----------
    power : float
        >= 0 [W].
    rotor_speed : float
        > 0 [rad/s].

    Examples
    --------
    >>> import math
    >>> round(shaft_torque(5000.0, 200.0 * math.pi / 30.0), 3)
    238.732
    """
    return not_negative("the power", power, "W", 5000.0) / positive("the rotor speed", rotor_speed, "rad/s", 20.9)


def shaft_stress(
    diameter: float,
    torque: float,
    bending: float = 0.0,
    thrust: float = 0.0,
    *,
    bore: float = 0.0,
    torsion_factor: float = 1.0,
    bending_factor: float = 1.0,
    thrust_factor: float = 1.0,
) -> ShaftStress:
    """Stresses where bending and thrust add up.

    Parameters
    ----------
    diameter : float
        > 0 [m].
    torque, bending : float
        Sign does not matter [N m].
    thrust : float
        Along the shaft, tension positive [N].
    bore : float
        0 to below the diameter [m].
    torsion_factor, bending_factor, thrust_factor : float
        Notch factors of a keyway, groove or shoulder, 1 to 10, stated by the user [-].
    """
    positive("the shaft's diameter", diameter, "m", 0.04)
    if not 0.0 <= bore < diameter:
        raise InputError(f"the shaft's bore is {bore!r} m; wanted 0 or more and below the diameter {diameter:g} m")
    for name, value, unit in (("torque", torque, "N m"), ("bending", bending, "N m"), ("thrust", thrust, "N")):
        finite(f"the shaft's {name}", value, unit, 100.0)
    for name, factor in (("torsion", torsion_factor), ("bending", bending_factor), ("thrust", thrust_factor)):
        within(f"the notch factor of {name}", factor, 1.0, 10.0, "", 2.0)
    fourth = diameter**4 - bore**4
    shear = torsion_factor * 16.0 * abs(torque) * diameter / (math.pi * fourth)
    bent = bending_factor * 32.0 * abs(bending) * diameter / (math.pi * fourth)
    pulled = thrust_factor * 4.0 * thrust / (math.pi * (diameter**2 - bore**2))
    along = bent + abs(pulled)
    return ShaftStress(
        torsion=shear,
        bending=bent,
        thrust=pulled,
        largest_shear=math.hypot(0.5 * along, shear),
        von_mises=math.hypot(along, math.sqrt(3.0) * shear),
        remarks=_remarks(bending, torsion_factor, bending_factor),
        safety=safety_basis(
            "structure", "round shaft, von Mises; notch factors stated", "closed form", "closed form"
        ),
    )


def _remarks(bending: float, torsion_factor: float, bending_factor: float) -> tuple[Remark, ...]:
    found: list[Remark] = []
    if bending != 0.0:
        found.append(
            Remark(
                "caution",
                "In a turning shaft a bending that stands still in space reverses its stress at every turn: check "
                "fatigue with twice the bending stress as range.",
                "shaft fatigue",
            )
        )
    if torsion_factor == 1.0 and bending_factor == 1.0:
        found.append(
            Remark(
                "note",
                "No notch factor is given: this is a plain shaft without keyway, groove or shoulder.",
                "notch factor",
            )
        )
    return tuple(found)
