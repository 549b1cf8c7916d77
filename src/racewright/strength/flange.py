"""A bolted flange: loads of the bolt that bears most."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.remark import Remark
from racewright.safety import SafetyBasis, safety_basis
from racewright.strength.door import finite, not_negative, positive, whole

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class BoltLoads:
    """Loads of a bolt group.

    Attributes
    ----------
    tension, shear : ndarray, shape (n,)
        Of each bolt, without its preload; tension negative where the flange presses [N].
    largest_tension, largest_shear : float
        [N]
    largest_stress : float
        Largest von Mises stress of tension (preload left out) and shear over the bolt's stress area [Pa].
    opens : bool or None
        Whether the largest tension passes the preload of a bolt; None when no preload is given.
    remarks : tuple of Remark
    safety : SafetyBasis
    """

    tension: Floats
    shear: Floats
    largest_tension: float
    largest_shear: float
    largest_stress: float
    opens: bool | None
    remarks: tuple[Remark, ...]
    safety: SafetyBasis


def bolt_circle(count: int, radius: float, first: float = 0.0) -> Floats:
    """Places of bolts on a circle, shape (count, 2) [m].

    Parameters
    ----------
    count : int
        3 to 200.
    radius : float
        > 0 [m].
    first : float
        Angle of the first bolt from x towards y [rad].
    """
    whole("the number of bolts", count, 3, 200, 8)
    positive("the bolt circle's radius", radius, "m", 0.1)
    angle = finite("the angle of the first bolt", first, "rad", 0.0) + 2.0 * np.pi * np.arange(count) / count
    return radius * np.column_stack([np.cos(angle), np.sin(angle)])


def bolt_loads(
    places: ArrayLike,
    stress_area: float,
    *,
    pull: float = 0.0,
    bending_x: float = 0.0,
    bending_y: float = 0.0,
    shear_x: float = 0.0,
    shear_y: float = 0.0,
    torque: float = 0.0,
    preload: float | None = None,
) -> BoltLoads:
    """Elastic bolt group about its centroid: stiff flanges, equal bolts, no prying.

    Parameters
    ----------
    places : array_like, shape (n, 2)
        Bolts in the flange's plane, two or more, not all on one line when bent across it [m].
    stress_area : float
        Tensile stress area of a bolt, > 0 [m2].
    pull : float
        Across the joint, parting it positive [N].
    bending_x, bending_y : float
        Moments that part the joint at -x and at -y, as `bending.bending_stress` [N m].
    shear_x, shear_y : float
        In the plane [N].
    torque : float
        About the normal, from x towards y [N m].
    preload : float, optional
        Of each bolt, >= 0 [N].
    """
    given = {
        "pull": pull,
        "bending_x": bending_x,
        "bending_y": bending_y,
        "shear_x": shear_x,
        "shear_y": shear_y,
        "torque": torque,
    }
    for name, value in given.items():
        finite(f"the flange's {name}", value, "N or N m", 100.0)
    positive("the bolt's stress area", stress_area, "m2", 84.3e-6)
    about = _about_centroid(places)
    tension = pull / len(about) + _tilted(about, bending_x, bending_y)
    polar = float(np.sum(about**2))
    turned = torque / polar * np.column_stack([-about[:, 1], about[:, 0]])
    each = np.array([shear_x, shear_y]) / len(about)
    shear = np.linalg.norm(each + turned, axis=1)
    stress = np.hypot(np.maximum(tension, 0.0), math.sqrt(3.0) * shear) / stress_area
    most = float(tension.max())
    opens = None if preload is None else most > not_negative("the preload", preload, "N", 20e3)
    return BoltLoads(
        tension=tension,
        shear=shear,
        largest_tension=most,
        largest_shear=float(shear.max()),
        largest_stress=float(stress.max()),
        opens=opens,
        remarks=_remarks(opens),
        safety=safety_basis(
            "structure", "elastic bolt group about its centroid, prying not covered", "closed form", "closed form"
        ),
    )


def _about_centroid(places: ArrayLike) -> Floats:
    points = np.array(places, dtype=np.float64)
    if points.ndim != 2 or points.shape[1] != 2 or points.shape[0] < 2 or not np.all(np.isfinite(points)):
        raise InputError("the bolts want two or more finite places x, y in m")
    about: Floats = points - points.mean(axis=0)
    if not np.any(about):
        raise InputError("all bolts stand at one place")
    return about


def _tilted(about: Floats, bending_x: float, bending_y: float) -> Floats:
    """Tension from both moments, as stress over a section whose area are the bolts."""
    x, y = about.T
    xx, yy, xy = float(y @ y), float(x @ x), float(x @ y)
    determinant = xx * yy - xy**2
    if bending_x == 0.0 and bending_y == 0.0:
        return np.zeros(len(about))
    if determinant <= 1e-12 * (xx + yy) ** 2:
        raise InputError("the bolts stand on one line and cannot bear a moment about it; give bolts off the line")
    slope_x = -(bending_x * xx - bending_y * xy) / determinant
    slope_y = -(bending_y * yy - bending_x * xy) / determinant
    tension: Floats = slope_x * x + slope_y * y
    return tension


def _remarks(opens: bool | None) -> tuple[Remark, ...]:
    found = [
        Remark(
            "caution",
            "Prying of flexible flanges is not covered and may add a third or more to a bolt's tension; slip, thread "
            "stripping and loosening are not looked at.",
            "bolted joint",
        )
    ]
    if opens is None:
        found.append(Remark("note", "No preload is given: whether the joint opens is not known.", "bolted joint"))
    elif opens:
        found.append(
            Remark(
                "warning",
                "The largest tension passes the preload: the joint opens, and its bolts take the whole load swing.",
                "bolted joint",
            )
        )
    return tuple(found)
