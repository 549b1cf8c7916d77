"""What the nodes of upkeep hold beside the rooms' own results."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.remark import Remark
from racewright.upkeep.recovery import RecoveryPull


@dataclass(frozen=True)
class RecoveryCase:
    """Pull at one stream speed.

    Attributes
    ----------
    water : str
        'median water', 'fastest water', 'fastest water, passage clogged'.
    stream_speed : float
        [m/s]
    pull : RecoveryPull
    """

    water: str
    stream_speed: float
    pull: RecoveryPull


@dataclass(frozen=True)
class Recovery:
    """How hard the machine is to draw out.

    Attributes
    ----------
    drag_area : float
        Drag coefficient x area of the machine with its rotor parked, from its thrust then [m2].
    cases : tuple of RecoveryCase
    remarks : tuple of Remark
    """

    drag_area: float
    cases: tuple[RecoveryCase, ...]
    remarks: tuple[Remark, ...]
