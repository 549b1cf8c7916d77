"""Bars across the inlet: what they cost, what they hold, and how they foul."""

from __future__ import annotations

import math
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

import numpy as np

from racewright.door import within
from racewright.errors import InputError
from racewright.passage.species import FishClass
from racewright.remark import Remark
from racewright.safety import SafetyBasis, safety_basis
from racewright.stage.clogging import debris_resistance


@dataclass(frozen=True, slots=True)
class Screen:
    """Bars ahead of the rows.

    Attributes
    ----------
    bar_thickness, bar_gap : float
        Across the flow; free width between bars [m].
    area : float
        Of the whole screen, bars and gaps, square to the water that comes [m2].
    slope : float
        Of the bars from the direction of flow; pi/2 stands square-on [rad].
    shape : {'rectangular', 'rounded_front', 'rounded_both', 'round'}

    Raises
    ------
    InputError
        A value out of range, an unknown shape.
    """

    bar_thickness: float
    bar_gap: float
    area: float
    slope: float = 0.5 * math.pi
    shape: str = "rounded_front"

    def __post_init__(self) -> None:
        """Refuse a screen that cannot be."""
        within("bar_thickness", self.bar_thickness, 5e-4, 0.2, "m", 0.008)
        within("bar_gap", self.bar_gap, 1e-3, 1.0, "m", 0.1)
        within("area", self.area, 1e-4, 1e4, "m2", 1.0)
        within("slope", self.slope, math.radians(5.0), 0.5 * math.pi, "rad", 1.2)
        if self.shape not in screen_data()["shape"]:
            raise InputError(f"no bar is called {self.shape!r}; there are {', '.join(screen_data()['shape'])}")

    @property
    def open_share(self) -> float:
        """Gaps over the whole screen [-]."""
        return self.bar_gap / (self.bar_gap + self.bar_thickness)


@dataclass(frozen=True, slots=True)
class ScreenLoss:
    """What a screen costs in one state.

    Attributes
    ----------
    closed_share : float
        Of the gaps, closed by debris [-].
    approach_speed : float
        Flow rate over the screen's area [m/s].
    coefficient : float
        Head lost over the approach's dynamic head [-].
    head_loss : float
        Per unit mass [J/kg].
    resistance : float
        Head lost over the dynamic head of the mean axial speed in the annulus, as the stage's debris resistance [-].
    open_share : float
        Gaps over the whole screen, debris taken off [-].
    remarks : tuple of Remark
    safety : SafetyBasis
    """

    closed_share: float
    approach_speed: float
    coefficient: float
    head_loss: float
    resistance: float
    open_share: float
    remarks: tuple[Remark, ...]
    safety: SafetyBasis


def screen_loss(screen: Screen, flow_rate: float, annulus_area: float, *, closed_share: float = 0.0) -> ScreenLoss:
    """Head lost in a screen, clean or fouled.

    Clean bars after Kirschmer (1926). Debris that closes a share c of the gaps speeds the water up in the rest, so
    that the bars' loss grows by 1/(1 - c)^2, and adds the loss behind the openings (`debris_resistance`).

    Parameters
    ----------
    screen : Screen
    flow_rate : float
        Through it, 1e-6 to 1e5 [m3/s].
    annulus_area : float
        Of the rotor, 1e-6 to 1e4 [m2].
    closed_share : float
        c, 0 to 0.95 [-].
    """
    within("flow_rate", flow_rate, 1e-6, 1e5, "m3/s", 1.5)
    within("annulus_area", annulus_area, 1e-6, 1e4, "m2", 0.7)
    within("closed_share", closed_share, 0.0, 0.95, "", 0.3)
    data = screen_data()
    clean = data["shape"][screen.shape] * (screen.bar_thickness / screen.bar_gap) ** (4.0 / 3.0)
    clean *= math.sin(screen.slope)
    fouled = float(debris_resistance(np.array(closed_share)))
    coefficient = clean / (1.0 - closed_share) ** 2 + fouled
    speed = flow_rate / screen.area
    return ScreenLoss(
        closed_share=closed_share,
        approach_speed=speed,
        coefficient=coefficient,
        head_loss=0.5 * coefficient * speed**2,
        resistance=coefficient * (annulus_area / screen.area) ** 2,
        open_share=screen.open_share * (1.0 - closed_share),
        remarks=_remarks(speed, data["approach"]),
        safety=safety_basis("fish", data["source"], data["edition"], data["status"]),
    )


def fill_time(screen: Screen, flow_rate: float, arriving_area: float, closed_share: float) -> float:
    """Time until debris closes a share of the gaps [s].

    Parameters
    ----------
    screen : Screen
    flow_rate : float
        [m3/s]
    arriving_area : float
        Area of debris that stays on the screen for each volume of water, the user's own, above 0 [m2/m3].
    closed_share : float
        Above 0 to 0.95 [-].
    """
    within("flow_rate", flow_rate, 1e-6, 1e5, "m3/s", 1.5)
    within("arriving_area", arriving_area, 1e-12, 1.0, "m2/m3", 1e-6)
    within("closed_share", closed_share, 1e-6, 0.95, "", 0.3)
    return closed_share * screen.open_share * screen.area / (arriving_area * flow_rate)


def held_back(screen: Screen, fish: FishClass, length: float) -> bool:
    """True where the gap is no wider than the fish: a tenth of its length, or its class's width, the larger."""
    share = max(screen_data()["fish"]["gap_share"], fish.width_share)
    return bool(screen.bar_gap <= share * within("length", length, 1e-4, 50.0, "m", 0.2))


@cache
def screen_data() -> dict[str, Any]:
    """The packaged table as it stands; read only."""
    return tomllib.loads(resources.files("racewright.passage").joinpath("data/screens.toml").read_text("utf-8"))


def _remarks(speed: float, approach: dict[str, Any]) -> tuple[Remark, ...]:
    found = [
        Remark(
            "note",
            "A screen moves the debris from the rows to itself: it must be raked, and its loss is paid all year.",
            "screen",
        )
    ]
    if speed > approach["limit"]:
        found.append(
            Remark(
                "warning",
                f"Water comes to the screen at {speed:.2f} m/s; fish that the gaps hold back get off one up to "
                f"{approach['limit']:.2f} m/s ({approach['source']}). Faster, they are pinned to it.",
                "screen",
            )
        )
    return tuple(found)
