"""What goes into a blockage correction and what comes out."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from racewright.errors import InputError
from racewright.remark import Remark
from racewright.trials.unbounded_record import UnboundedRecord

State = Literal["valid", "indicative", "refused"]
ThrustKind = Literal["rotor", "total"]


@dataclass(frozen=True)
class ChannelReading:
    """One reading in a channel; coefficients are on the channel's stream speed and the rotor annulus.

    Attributes
    ----------
    power_coefficient, thrust_coefficient, tip_speed_ratio : float
        CP, CT and TSR as measured [-].
    blockage : float
        B, rotor annulus area over channel area [-].
    froude : float or None
        U / sqrt(g h) of an open channel; None under a lid or when unknown [-].
    ducted : bool
        True when the rotor stands in a duct.
    thrust : {'rotor', 'total'}
        Which force CT is: on rotor (and vanes) alone, or on the whole body. Same for a bare rotor.
    at_peak_power : bool
        True at the peak of the power curve.
    """

    power_coefficient: float
    thrust_coefficient: float
    tip_speed_ratio: float
    blockage: float
    froude: float | None = None
    ducted: bool = False
    thrust: ThrustKind = "rotor"
    at_peak_power: bool = False

    def __post_init__(self) -> None:
        for key in ("power_coefficient", "thrust_coefficient", "tip_speed_ratio"):
            value = getattr(self, key)
            if not (math.isfinite(value) and value >= 0.0):
                raise InputError(f"is {value}; it must be a finite number, 0 or more", key=key)
        if not 0.0 < self.blockage < 1.0:
            raise InputError(
                f"is {self.blockage}; it must lie between 0 and 1 (an open stream needs no correction)",
                key="blockage",
            )
        if self.froude is not None and not 0.0 <= self.froude < 1.0:
            raise InputError(f"is {self.froude}; it must be 0 or more and below 1", key="froude")
        if self.thrust not in ("rotor", "total"):
            raise InputError(f"is {self.thrust!r}; it must be 'rotor' or 'total'", key="thrust")


@dataclass(frozen=True)
class Estimate:
    """One correction of one reading.

    Attributes
    ----------
    method : str
        Name in the table of corrections.
    title : str
        In words, with its source.
    state : {'valid', 'indicative', 'refused'}
        Whether its own conditions hold; refused where there is no answer.
    reasons : tuple of str
        Why it is not valid; empty when it is.
    stream_ratio : float or None
        U_F/U_T, equivalent open stream over the channel's; None where the method has no single one [-].
    power_coefficient, thrust_coefficient, tip_speed_ratio : float or None
        In the equivalent open stream; the thrust is of the kind measured [-].
    load : float or None
        Rotor thrust coefficient in the equivalent open stream [-].
    disc_speed, bypass_speed : float or None
        At the rotor and beside the wake, over the channel's stream speed, where the method knows them [-].
    thrust_ratio : float or None
        kappa, all axial force over rotor thrust [-].
    drop : float or None
        Fall of the surface over depth, where the method knows it [-].
    """

    method: str
    title: str
    state: State
    reasons: tuple[str, ...]
    stream_ratio: float | None = None
    power_coefficient: float | None = None
    thrust_coefficient: float | None = None
    tip_speed_ratio: float | None = None
    load: float | None = None
    disc_speed: float | None = None
    bypass_speed: float | None = None
    thrust_ratio: float | None = None
    drop: float | None = None


@dataclass(frozen=True)
class MethodSpread:
    """Least and largest of the valid estimates; never a mean of them.

    Attributes
    ----------
    power_coefficient, thrust_coefficient, tip_speed_ratio, stream_ratio : tuple of float
        (least, largest) [-].
    methods : tuple of str
        Which estimates.
    """

    power_coefficient: tuple[float, float]
    thrust_coefficient: tuple[float, float]
    tip_speed_ratio: tuple[float, float]
    stream_ratio: tuple[float, float]
    methods: tuple[str, ...]


@dataclass(frozen=True)
class Blockage:
    """All corrections of one reading, side by side.

    Attributes
    ----------
    reading : ChannelReading
    estimates : tuple of Estimate
        One for each row of the table, in its order.
    preferred : str or None
        'record', or the name of an estimate; None when none answers.
    why : str
    spread : MethodSpread or None
        Over the valid estimates; None without one.
    record : UnboundedRecord or None
        From two or more blockages of the same model.
    remarks : tuple of Remark
    """

    reading: ChannelReading
    estimates: tuple[Estimate, ...]
    preferred: str | None
    why: str
    spread: MethodSpread | None
    record: UnboundedRecord | None
    remarks: tuple[Remark, ...]

    def __getitem__(self, method: str) -> Estimate:
        for one in self.estimates:
            if one.method == method:
                return one
        raise KeyError(method)
