"""Energy stored in a line under tension."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.remark import Remark
from racewright.safety import SafetyBasis, safety_basis
from racewright.strength.door import not_negative, positive


@dataclass(frozen=True, slots=True)
class StoredEnergy:
    """Energy that a line gives back at once when it parts.

    Attributes
    ----------
    energy : float
        [J]
    stretch : float
        [m]
    remarks : tuple of Remark
    safety : SafetyBasis
    """

    energy: float
    stretch: float
    remarks: tuple[Remark, ...]
    safety: SafetyBasis


def stored_energy(tension: float, length: float, axial_stiffness: float) -> StoredEnergy:
    """Energy T^2 L/(2 EA) and stretch T L/EA of a line of even stiffness.

    Parameters
    ----------
    tension : float
        >= 0 [N].
    length : float
        Unstretched, > 0 [m].
    axial_stiffness : float
        EA, > 0 [N].

    Examples
    --------
    >>> stored_energy(20e3, 20.0, 1e6).energy
    4000.0
    """
    not_negative("the line's tension", tension, "N", 20e3)
    positive("the line's length", length, "m", 20.0)
    positive("the line's axial stiffness", axial_stiffness, "N", 1e6)
    energy = tension**2 * length / (2.0 * axial_stiffness)
    safety = safety_basis("line_under_tension", "T^2 L/(2 EA), elastic line", "closed form", "closed form")
    told = f"The line stores {energy:.0f} J. {safety.caution}"
    remark = Remark("warning" if energy > 0.0 else "note", told, "line under tension")
    return StoredEnergy(energy, tension * length / axial_stiffness, (remark,), safety)
