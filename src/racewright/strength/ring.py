"""A ring under equal radial loads, and under pressure: closed forms of the thin ring."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.errors import InputError
from racewright.remark import Remark
from racewright.safety import SafetyBasis, safety_basis
from racewright.strength.door import finite, not_negative, positive, whole, within

THICK = 10.0
"""Radius over radial thickness below which the thin ring is warned of; common practice, no source [-]."""


@dataclass(frozen=True, slots=True)
class Ring:
    """A circular ring of even section.

    Attributes
    ----------
    radius : float
        Of the section's centroid, > 0 [m].
    width : float
        Along the axis, > 0 [m].
    area, second_moment : float
        Of the section; the moment that resists bending in the ring's plane [m2], [m4].
    fibre : float
        Largest radial distance of the section from its centroid [m].
    elasticity : float
        [Pa]
    poisson : float
        0 to 0.5 [-].
    """

    radius: float
    width: float
    area: float
    second_moment: float
    fibre: float
    elasticity: float
    poisson: float = 0.3

    def __post_init__(self) -> None:
        positive("the ring's radius", self.radius, "m", 0.5)
        positive("the ring's width", self.width, "m", 0.05)
        positive("the ring's section area", self.area, "m2", 1e-3)
        positive("the ring's second moment", self.second_moment, "m4", 3.33e-8)
        positive("the ring's elasticity", self.elasticity, "Pa", 200e9)
        within("Poisson's ratio", self.poisson, 0.0, 0.5, "", 0.3)
        if not 0.0 < self.fibre < self.radius:
            raise InputError(f"the ring's fibre distance is {self.fibre!r} m; wanted above 0 and below the radius")

    @property
    def stiffness(self) -> float:
        """E I [N m2]."""
        return self.elasticity * self.second_moment


def rectangular_ring(radius: float, width: float, thickness: float, elasticity: float, poisson: float = 0.3) -> Ring:
    """A ring of rectangular section; `width` along the axis and `thickness` along the radius, > 0 [m]."""
    positive("the ring's thickness", thickness, "m", 0.02)
    positive("the ring's width", width, "m", 0.05)
    area, second = width * thickness, width * thickness**3 / 12.0
    return Ring(radius, width, area, second, 0.5 * thickness, elasticity, poisson)


@dataclass(frozen=True, slots=True)
class RingLoads:
    """A ring pressed inwards by equal loads.

    Attributes
    ----------
    moment_at_load, moment_between : float
        Positive pulls on the inner side [N m].
    hoop_at_load, hoop_between : float
        Force along the ring, tension positive [N].
    stress : float
        Largest by size, bending and hoop force together [Pa].
    inward_at_load : float
        Radial movement at each load, inwards [m].
    outward_between : float
        Radial movement midway between loads, outwards [m].
    remarks : tuple of Remark
    safety : SafetyBasis
    """

    moment_at_load: float
    moment_between: float
    hoop_at_load: float
    hoop_between: float
    stress: float
    inward_at_load: float
    outward_between: float
    remarks: tuple[Remark, ...]
    safety: SafetyBasis


def ring_loads(ring: Ring, load: float, count: int = 2) -> RingLoads:
    """`count` equal radial loads, evenly spaced, pressing inwards: two opposite ones by default.

    With a = pi/count: M = W R (1/a - cot a)/2 at the loads and W R (1/a - 1/sin a)/2 between them, bending alone
    counted in the movements. Two loads: 0.318 and -0.182 W R, diameter shorter by 0.149 and longer by 0.137 W R^3/EI.

    Parameters
    ----------
    ring : Ring
    load : float
        Each load W, inwards positive; outwards negative turns every sign [N].
    count : int
        2 to 200.
    """
    finite("the load on the ring", load, "N", 1000.0)
    a = math.pi / whole("the number of loads", count, 2, 200, 2)
    sine, cosine = math.sin(a), math.cos(a)
    at, between = (
        0.5 * load * ring.radius * (1.0 / a - cosine / sine),
        0.5 * load * ring.radius * (1.0 / a - 1.0 / sine),
    )
    hoop_at, hoop_between = -0.5 * load * cosine / sine, -0.5 * load / sine
    scale = load * ring.radius**3 / (2.0 * ring.stiffness)
    stress = max(_stress(ring, at, hoop_at), _stress(ring, between, hoop_between))
    return RingLoads(
        moment_at_load=at,
        moment_between=between,
        hoop_at_load=hoop_at,
        hoop_between=hoop_between,
        stress=stress,
        inward_at_load=scale * ((a + sine * cosine) / (2.0 * sine**2) - 1.0 / a),
        outward_between=scale * (1.0 / a - (sine + a * cosine) / (2.0 * sine**2)),
        remarks=_thick(ring),
        safety=_basis("thin ring, equal radial loads, bending alone in the movements"),
    )


@dataclass(frozen=True, slots=True)
class RingPressure:
    """A ring under an even pressure difference.

    Attributes
    ----------
    hoop_stress : float
        Tension positive [Pa].
    bending_stress : float
        From the ring being out of round, made larger by external pressure; >= 0 [Pa].
    stress : float
        Largest by size [Pa].
    buckling_load : float
        External force per length of circumference at which a perfect ring buckles, 3 E I / R^3 [N/m].
    buckling_pressure : float
        The same over the width [Pa].
    buckling_use : float
        Net external pressure over buckling pressure, 0 for internal pressure [-].
    remarks : tuple of Remark
    safety : SafetyBasis
    """

    hoop_stress: float
    bending_stress: float
    stress: float
    buckling_load: float
    buckling_pressure: float
    buckling_use: float
    remarks: tuple[Remark, ...]
    safety: SafetyBasis


def ring_pressure(ring: Ring, external: float, internal: float = 0.0, out_of_round: float = 0.0) -> RingPressure:
    """Hoop stress, bending of an oval ring, and buckling.

    Parameters
    ----------
    ring : Ring
        Free at its edges; neighbours that hold it are left out.
    external, internal : float
        Pressures on its outside and inside over its width, >= 0 [Pa].
    out_of_round : float
        Largest radial departure from the circle, an ellipse taken, 0 to a tenth of the radius [m].

    Notes
    -----
    The ellipse's bending moment is N w/(1 - p/p_crit) with N the hoop force (Timoshenko and Gere, Theory of Elastic
    Stability), straightened by internal pressure alike.
    """
    net = not_negative("the external pressure", external, "Pa", 2e4)
    net -= not_negative("the internal pressure", internal, "Pa", 0.0)
    within("the departure from the circle", out_of_round, 0.0, 0.1 * ring.radius, "m", 0.001)
    critical = 3.0 * ring.stiffness / ring.radius**3
    use = net * ring.width / critical
    hoop = -net * ring.width * ring.radius / ring.area
    remarks = list(_thick(ring))
    bending = 0.0
    if use < 1.0:
        bending = abs(net) * ring.width * ring.radius * out_of_round / (1.0 - use) * ring.fibre / ring.second_moment
    else:
        remarks.append(
            Remark("warning", f"External pressure is {use:.2f} times what buckles the ring: it folds.", "buckling")
        )
    remarks.append(
        Remark(
            "caution",
            "Buckling is that of a round, elastic ring: rings of the shop fold earlier. A margin of 3 is common "
            "practice.",
            "buckling",
        )
    )
    return RingPressure(
        hoop_stress=hoop,
        bending_stress=bending,
        stress=abs(hoop) + bending,
        buckling_load=critical,
        buckling_pressure=critical / ring.width,
        buckling_use=max(use, 0.0),
        remarks=tuple(remarks),
        safety=_basis("thin ring under even pressure, buckling 3EI/R^3 (Levy)"),
    )


def tube_buckling_pressure(thickness: float, radius: float, elasticity: float, poisson: float = 0.3) -> float:
    """External pressure that buckles a long tube, E/(4(1 - nu^2)) (t/r)^3 (Bresse) [Pa].

    Parameters
    ----------
    thickness, radius : float
        > 0 [m].
    elasticity : float
        > 0 [Pa].
    poisson : float
        0 to 0.5 [-].
    """
    positive("the tube's thickness", thickness, "m", 0.01)
    positive("the tube's radius", radius, "m", 0.5)
    positive("the tube's elasticity", elasticity, "Pa", 200e9)
    within("Poisson's ratio", poisson, 0.0, 0.5, "", 0.3)
    return elasticity / (4.0 * (1.0 - poisson**2)) * (thickness / radius) ** 3


def _stress(ring: Ring, moment: float, hoop: float) -> float:
    return abs(moment) * ring.fibre / ring.second_moment + abs(hoop) / ring.area


def _thick(ring: Ring) -> tuple[Remark, ...]:
    if ring.radius >= THICK * 2.0 * ring.fibre:
        return ()
    return (
        Remark(
            "caution",
            f"Radius over thickness is {0.5 * ring.radius / ring.fibre:.1f}: a thick ring has more stress at its "
            "inner side than this thin one.",
            "thick ring",
        ),
    )


def _basis(text: str) -> SafetyBasis:
    return safety_basis("structure", text, "closed form", "closed form")
