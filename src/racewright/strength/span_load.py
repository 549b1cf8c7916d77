"""Force per span on one vane or blade, and what it makes of it at the root."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.safety import SafetyBasis, safety_basis
from racewright.stage.result import Triangles
from racewright.strength.door import finite, growing_row, not_negative, positive, same_length, whole

Floats = NDArray[np.float64]
_GAUSS, _WEIGHT = np.polynomial.legendre.leggauss(4)

Support = Literal["one end", "both ends"]


@dataclass(frozen=True, slots=True)
class SpanLoad:
    """Force per span on one vane or blade, straight between the radii.

    Attributes
    ----------
    radius : ndarray, shape (n,)
        Growing, n >= 2 [m].
    axial : ndarray, shape (n,)
        Downstream positive [N/m].
    tangential : ndarray, shape (n,)
        In the direction of rotation positive [N/m].
    """

    radius: Floats
    axial: Floats
    tangential: Floats

    def __post_init__(self) -> None:
        radius = growing_row("the span load's radius", self.radius, "m")
        object.__setattr__(self, "radius", radius)
        for name in ("axial", "tangential"):
            row = same_length(f"the span load's {name} force", getattr(self, name), "N/m", radius)
            object.__setattr__(self, name, row)


@dataclass(frozen=True, slots=True)
class RootLoads:
    """Force and moment at the held ends of one vane or blade.

    Attributes
    ----------
    axial_force, tangential_force : float
        What the inner end bears of the load [N].
    axial_bending, tangential_bending : float
        Moments at the inner end that bend the span downstream, and in the direction of rotation [N m].
    outer_axial_force, outer_tangential_force : float
        What the outer end bears, 0 when it is free [N].
    outer_axial_bending, outer_tangential_bending : float
        The same at the outer end, 0 when it is free [N m].
    support : {'one end', 'both ends'}
    safety : SafetyBasis
    """

    axial_force: float
    tangential_force: float
    axial_bending: float
    tangential_bending: float
    outer_axial_force: float
    outer_tangential_force: float
    outer_axial_bending: float
    outer_tangential_bending: float
    support: Support
    safety: SafetyBasis


def row_span_load(
    triangles: Triangles,
    density: float,
    count: int,
    kind: Literal["vanes", "blades"],
    *,
    row_force: float | None = None,
) -> SpanLoad:
    """Span load from velocity triangles: what turns the flow, and drag as what is left of the row's axial force.

    Per vane or blade and span: tangential rho s V dC, s the pitch, V the axial speed, dC the swirl speed taken out:
    all of it, by the balance of angular momentum. Axial rho s dC (U - mean C), U the row's own speed: the lift alone.
    The rest of `row_force` is drag and losses; it is spread as V W, the axial part of an even drag on an even chord,
    W the mean relative speed. On stalled and held rows it is most of the force.

    Parameters
    ----------
    triangles : Triangles
    density : float
        Of the water, > 0 [kg/m3].
    count : int
        Vanes or blades of the row, 1 to 200.
    kind : {'vanes', 'blades'}
    row_force : float, optional
        Axial force on the whole row, `OperatingPoint.forces.rotor` or `.vanes`; without it the lift stands alone [N].
    """
    positive("the water's density", density, "kg/m3", 1000.0)
    whole("the number of vanes or blades", count, 1, 200, 5)
    nothing = np.zeros_like(triangles.radius)
    before, behind, own = nothing, triangles.swirl_in, nothing
    if kind == "blades":
        before, behind, own = triangles.swirl_in, triangles.swirl_out, triangles.blade_speed
    taken = density * 2.0 * np.pi * triangles.radius / count * (before - behind)
    across = own - 0.5 * (before + behind)
    axial = taken * across
    if row_force is not None:
        place, weight = _points(triangles.radius)
        shape = triangles.axial_speed * np.hypot(triangles.axial_speed, across)
        lift, spread = (float((np.interp(place, triangles.radius, row) * weight).sum()) for row in (axial, shape))
        axial = axial + (finite("the row's force", row_force, "N", 1000.0) / count - lift) / spread * shape
    return SpanLoad(triangles.radius, axial, taken * triangles.axial_speed)


def root_loads(
    load: SpanLoad, root_radius: float, *, support: Support = "one end", outer_radius: float | None = None
) -> RootLoads:
    """Force and moment at the root of a span held at one end or clamped at both.

    Parameters
    ----------
    load : SpanLoad
    root_radius : float
        Where the inner end is held, not above the first radius of the load; between them there is no load [m].
    support : {'one end', 'both ends'}
        'both ends' clamps a beam of even stiffness at the root and at `outer_radius`.
    outer_radius : float, optional
        Not below the last radius; that radius when not given [m].
    """
    not_negative("the root's radius", root_radius, "m", 0.15)
    if root_radius > load.radius[0]:
        raise InputError(
            f"the root's radius {root_radius:g} m stands above the first radius {load.radius[0]:g} m of the load; "
            "the root lies at or inside it"
        )
    outer = float(load.radius[-1]) if outer_radius is None else finite("the outer radius", outer_radius, "m", 0.5)
    if support not in ("one end", "both ends"):
        raise InputError(f"the support is {support!r}; wanted 'one end' or 'both ends'")
    if outer < load.radius[-1]:
        raise InputError(
            f"the outer radius {outer:g} m stands below the last radius {load.radius[-1]:g} m of the load"
        )
    place, weight = _points(load.radius)
    z, span = place - root_radius, outer - root_radius
    forces = [np.interp(place, load.radius, row) * weight for row in (load.axial, load.tangential)]
    if support == "one end":
        inner = [(float(f.sum()), float((f * z).sum())) for f in forces]
        far = [(0.0, 0.0), (0.0, 0.0)]
    else:
        part = z / span
        inner = [
            (
                float((f * (1.0 - part) ** 2 * (1.0 + 2.0 * part)).sum()),
                float((f * z * (1.0 - part) ** 2).sum()),
            )
            for f in forces
        ]
        far = [
            (float((f * part**2 * (3.0 - 2.0 * part)).sum()), float((f * z * part * (1.0 - part)).sum()))
            for f in forces
        ]
    return RootLoads(
        axial_force=inner[0][0],
        tangential_force=inner[1][0],
        axial_bending=inner[0][1],
        tangential_bending=inner[1][1],
        outer_axial_force=far[0][0],
        outer_tangential_force=far[1][0],
        outer_axial_bending=far[0][1],
        outer_tangential_bending=far[1][1],
        support=support,
        safety=safety_basis("structure", f"beam held at {support}, even stiffness", "closed form", "closed form"),
    )


def centrifugal_pull(radius: ArrayLike, mass_per_length: ArrayLike, rotor_speed: float) -> float:
    """Pull at the root of a turning blade, integral of mass per length x speed^2 x radius [N].

    Parameters
    ----------
    radius : array_like, shape (n,)
        Growing, from the root [m].
    mass_per_length : array_like, shape (n,)
        Of the blade's own material, >= 0, straight between the radii [kg/m].
    rotor_speed : float
        [rad/s]
    """
    places = growing_row("the radius", radius, "m")
    mass = same_length("the mass per length", mass_per_length, "kg/m", places, low=0.0)
    speed = finite("the rotor speed", rotor_speed, "rad/s", 10.0)
    place, weight = _points(places)
    return float((np.interp(place, places, mass) * place * weight).sum()) * speed**2


def _points(radius: Floats) -> tuple[Floats, Floats]:
    """Gauss points and weights on every stretch: exact for straight loads times the cubics of a clamped beam."""
    half, middle = 0.5 * np.diff(radius)[:, None], 0.5 * (radius[1:] + radius[:-1])[:, None]
    return (middle + half * _GAUSS).ravel(), (half * _WEIGHT).ravel()
