"""Parts of an operating point's answer: forces, the core behind the hub, the outside book."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Forces:
    """Axial force on each part, positive downstream; the thrust is their sum.

    Attributes
    ----------
    rotor, vanes : float
        From lift and drag of the sections [N].
    duct : float
        Surface pressures, with what swirl and loss change in them, and friction on both sides [N].
    hub : float
        As the duct's, with the suction of the vortex behind the tail [N].
    debris : float
        On debris held ahead of the rows [N].
    """

    rotor: float
    vanes: float
    duct: float
    hub: float
    debris: float


@dataclass(frozen=True)
class HubCore:
    """Free vortex behind the hub with a core that turns as a solid (Rankine).

    Attributes
    ----------
    strength : float
        K = r Cth of the water that leaves along the hub; the sign is its sense [m2/s].
    radius : float
        Core radius r_c [m].
    tail_force : float
        Suction on the hub's tail, pi rho K^2 (ln(r_hub/r_c) + 3/4), downstream [N].
    lowest_pressure : float
        -rho K^2/r_c^2 on the axis, relative to the undisturbed water at the same depth [Pa].
    swirl_ratio : float
        |K|/(r_c w), w the far-wake speed, 0 where nothing flows [-].
    breakdown : bool
        True where the swirl ratio is above about 1.3 (from memory) and the vortex is likely to burst, which fills the
        core and takes away much of its suction.
    """

    strength: float
    radius: float
    tail_force: float
    lowest_pressure: float
    swirl_ratio: float
    breakdown: bool


@dataclass(frozen=True)
class OutsideBook:
    """Total drag x stream speed = all that follows; no entry is the rest of the others.

    Attributes
    ----------
    drag_power : float
        Sum of the forces on all parts x stream speed [W].
    shaft : float
        Rotor torque x rotor speed [W].
    profile_loss, end_wall_loss, tip_loss : float
        Of both rows, from the sections' drag [W].
    debris_loss : float
        In debris ahead of the rows [W].
    wall_friction : float
        Dissipated along the duct's inner wall and the hub, from cf rho V^3/2 [W].
    outer_friction : float
        Friction force on the duct's outer side x stream speed [W].
    residual_swirl : float
        Flux of rho Cth^2/2 in the far wake, core included [W].
    core_loss : float
        Lost in the vortex's core where it comes to turn as a solid [W].
    wake_mixing : float
        rho Q (U - w)^2/2, which the outer water mixes away, and (U - w) x the pull of the low pressure in the
        swirling wake [W].
    mismatch : float
        Sum of the entries over `drag_power`, less 1; means something in an open stream and where the load was
        solved, not in the closure [-].
    """

    drag_power: float
    shaft: float
    profile_loss: float
    end_wall_loss: float
    tip_loss: float
    debris_loss: float
    wall_friction: float
    outer_friction: float
    residual_swirl: float
    core_loss: float
    wake_mixing: float
    mismatch: float
