"""Screw (helical) anchors: plates in the soil, and the torque that drove them."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from racewright.errors import InputError
from racewright.holding.anchor_door import not_negative, positive, within
from racewright.holding.anchor_result import AnchorHolding, AnchorLimit, answered, refused, scattered
from racewright.holding.anchor_tables import FOOT, anchor_data
from racewright.remark import Remark
from racewright.safety import safety_basis
from racewright.uncertainty import Band

FURTHEST_OFF_AXIS = math.radians(15.0)
"""Angle between pull and shaft beyond which a bending shaft is warned of; own choice [rad]."""


@dataclass(frozen=True, slots=True)
class ScrewAnchor:
    """A shaft with helical plates, by its soil, by its torque, or by both.

    Attributes
    ----------
    plate_diameters : tuple of float
        From the uppermost plate down, each > 0; () when only the torque is known [m].
    cohesion : float
        Undrained shear strength c at the plates, >= 0 [Pa].
    bearing_factor : float
        Nc, 0 to 12; 9 for deep plates in clay [-].
    overburden : float
        Effective vertical stress q at the plates, >= 0 [Pa].
    overburden_factor : float
        Nq, >= 0; 0 leaves the sand term out [-].
    torque : float or None
        Installing torque averaged over the last plate diameters, > 0 [N m].
    torque_factor : Band
        Kt; packaged default 10 per foot within a published range of 3 to 20 per foot [1/m].
    depth : float or None
        Of the uppermost plate, > 0 [m].
    spacing : float or None
        Between plates, > 0 [m].
    shaft_angle : float
        Of the shaft above the horizontal, 0 to pi/2 [rad].
    """

    plate_diameters: tuple[float, ...] = ()
    cohesion: float = 0.0
    bearing_factor: float = 9.0
    overburden: float = 0.0
    overburden_factor: float = 0.0
    torque: float | None = None
    torque_factor: Band = field(default_factory=lambda: default_torque_factor())
    depth: float | None = None
    spacing: float | None = None
    shaft_angle: float = math.pi / 2.0

    def __post_init__(self) -> None:
        for diameter in self.plate_diameters:
            positive("a plate's diameter", diameter, "m", 0.3)
        not_negative("the soil's cohesion", self.cohesion, "Pa", 50e3)
        within("the bearing factor", self.bearing_factor, 0.0, 12.0, "", 9.0)
        not_negative("the overburden", self.overburden, "Pa", 20e3)
        not_negative("the overburden factor", self.overburden_factor, "", 10.0)
        for name, value in (("depth of the upper plate", self.depth), ("spacing of the plates", self.spacing)):
            if value is not None:
                positive(f"the {name}", value, "m", 2.0)
        within("the shaft's angle", self.shaft_angle, 0.0, math.pi / 2.0, "rad", 1.0)
        if self.torque is not None:
            positive("the installing torque", self.torque, "N m", 2000.0)
        band = self.torque_factor
        if not (0.0 < band.low <= band.value <= band.high < math.inf):
            raise InputError("the torque factor wants 0 < low <= value <= high, e.g. 9.8, 32.8, 65.6 per metre")
        if not self.plate_diameters and self.torque is None:
            raise InputError("a screw anchor wants its plates and soil, or its installing torque, or both")


def default_torque_factor() -> Band:
    """Kt of a 1.5 in square shaft with the range published for all shafts [1/m]."""
    data = anchor_data()["screw"]
    low, value, high = (per_foot / FOOT for per_foot in data["torque_factor_per_foot"])
    return Band(low, value, high, f"{data['source']}; {data['status']}")


def plate_holding(
    plate_diameters: tuple[float, ...],
    cohesion: float,
    bearing_factor: float = 9.0,
    overburden: float = 0.0,
    overburden_factor: float = 0.0,
) -> float:
    """Sum over plates of area x (c Nc + q Nq) [N]; arguments as `ScrewAnchor`.

    Examples
    --------
    >>> round(plate_holding((0.3,), 50e3), 1)
    31808.6
    """
    pressure = cohesion * bearing_factor + overburden * overburden_factor
    return sum(0.25 * math.pi * diameter**2 * pressure for diameter in plate_diameters)


def screw_holding(anchor: ScrewAnchor, horizontal: float, vertical: float) -> AnchorHolding:
    """Load along the line that the screw bears: the lesser of plates and torque where both are known.

    Parameters
    ----------
    anchor : ScrewAnchor
    horizontal, vertical : float
        As `AnchorLoad`; they tell how far the pull is off the shaft [N].
    """
    data = anchor_data()["screw"]
    safety = safety_basis(
        "anchors", data["source"], data["edition"], f"{data['status']}; scatter {data['scatter_status']}"
    )
    limits: list[AnchorLimit] = []
    if anchor.plate_diameters:
        value = plate_holding(
            anchor.plate_diameters,
            anchor.cohesion,
            anchor.bearing_factor,
            anchor.overburden,
            anchor.overburden_factor,
        )
        low, high = data["scatter"]
        limits.append(AnchorLimit("plates pull out", scattered(value, (low, high), data["scatter_status"])))
    if anchor.torque is not None:
        kt = anchor.torque_factor
        limits.append(
            AnchorLimit(
                "by installing torque",
                Band(kt.low * anchor.torque, kt.value * anchor.torque, kt.high * anchor.torque, kt.basis),
            )
        )
    off = abs(math.atan2(vertical, horizontal) - anchor.shaft_angle)
    remarks = _remarks(anchor, off, data)
    if min(limit.load.value for limit in limits) <= 0.0:
        return refused("screw", "The soil that was given has no strength: cohesion and overburden are 0.", safety)
    return answered("screw", tuple(limits), remarks, safety)


def _remarks(anchor: ScrewAnchor, off: float, data: dict[str, float]) -> tuple[Remark, ...]:
    found: list[Remark] = []
    if off > FURTHEST_OFF_AXIS:
        found.append(
            Remark(
                "warning",
                f"The pull stands {math.degrees(off):.0f} degrees off the shaft. The holding is that of a pull "
                "along it; bending of the shaft and soft soil at its head are not covered.",
                "screw anchor",
            )
        )
    if anchor.plate_diameters:
        largest = max(anchor.plate_diameters)
        if anchor.depth is None or anchor.depth < data["least_depth"] * largest:
            told = "not given" if anchor.depth is None else f"{anchor.depth:.2f} m"
            found.append(
                Remark(
                    "warning",
                    f"Depth of the upper plate: {told}. The form is for deep plates, "
                    f"{data['least_depth']:.0f} diameters or more; a shallow one lifts a cone of soil and holds "
                    "less.",
                    "screw anchor",
                )
            )
        if len(anchor.plate_diameters) > 1 and (
            anchor.spacing is None or anchor.spacing < data["least_spacing"] * largest
        ):
            found.append(
                Remark(
                    "caution",
                    f"Plates closer than {data['least_spacing']:.0f} diameters pull out one cylinder of soil, not "
                    "plate by plate.",
                    "screw anchor",
                )
            )
    found.append(Remark("caution", "Pull-test every screw: soil and torque factor vary.", "screw anchor"))
    return tuple(found)
