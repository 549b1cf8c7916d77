"""Mean-line stage: work, reaction and flow angles from each other, constant axial speed."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.errors import InputError


@dataclass(frozen=True)
class MeanLine:
    """One stage at one radius; angles from axial, positive in the direction of rotation.

    Attributes
    ----------
    flow_coefficient : float
        phi = axial speed / blade speed [-].
    work_coefficient : float
        psi = work per unit mass / blade speed squared [-].
    reaction : float
        Static head drop in the rotor over that in the stage, inlet and outlet swirl alike or repeated stage
        [-].
    vane_exit_angle, exit_angle : float
        Absolute flow angles before and behind the rotor [rad].
    relative_angle_in, relative_angle_out : float
        Relative flow angles before and behind the rotor [rad].
    """

    flow_coefficient: float
    work_coefficient: float
    reaction: float
    vane_exit_angle: float
    exit_angle: float
    relative_angle_in: float
    relative_angle_out: float


def meanline(flow_coefficient: float, vane_exit_angle: float, exit_angle: float = 0.0) -> MeanLine:
    """Stage from its flow coefficient and signed absolute flow angles.

    psi = phi (tan a2 - tan a3), R = 1 - (phi/2)(tan a2 + tan a3), tan b = tan a - 1/phi (exact, constant
    axial speed).

    Parameters
    ----------
    flow_coefficient : float
        phi, > 0 [-].
    vane_exit_angle, exit_angle : float
        a2 and a3, within +-pi/2; axial exit by default [rad].

    Raises
    ------
    InputError
        For values outside these ranges.
    """
    if not (math.isfinite(flow_coefficient) and flow_coefficient > 0.0):
        raise InputError(f"The flow coefficient must be above 0; found {flow_coefficient}.")
    for angle in (vane_exit_angle, exit_angle):
        if not abs(angle) < 0.5 * math.pi:
            raise InputError(f"Flow angles lie within 90 degrees of the axial direction; found {angle} rad.")
    before, behind = math.tan(vane_exit_angle), math.tan(exit_angle)
    return MeanLine(
        flow_coefficient,
        flow_coefficient * (before - behind),
        1.0 - 0.5 * flow_coefficient * (before + behind),
        vane_exit_angle,
        exit_angle,
        math.atan(before - 1.0 / flow_coefficient),
        math.atan(behind - 1.0 / flow_coefficient),
    )


def axial_meanline(flow_coefficient: float, work_coefficient: float) -> MeanLine:
    """Stage with axial inlet and axial exit: tan a2 = psi/phi, R = 1 - psi/2.

    Parameters
    ----------
    flow_coefficient, work_coefficient : float
        phi > 0 and psi, finite [-].
    """
    if not math.isfinite(work_coefficient):
        raise InputError(f"The work coefficient must be a number; found {work_coefficient}.")
    if not (math.isfinite(flow_coefficient) and flow_coefficient > 0.0):
        raise InputError(f"The flow coefficient must be above 0; found {flow_coefficient}.")
    return meanline(flow_coefficient, math.atan(work_coefficient / flow_coefficient))
