"""One machine as it is meant: duct, hub, rows, design intent."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.machine.duct import Duct
from racewright.machine.hub import Hub


@dataclass(frozen=True)
class RowIntent:
    """What the maker chooses of a row; the stage's design finds stagger and camber.

    Attributes
    ----------
    count : int
        Number of vanes or blades, 2 to 30.
    place_x : float
        Axial place of the mid-chord, from the duct's leading edge [m].
    hub_chord, tip_chord : float
        Chord at hub and tip, linear between [m].
    thickness : float
        Thickness over chord, 0.02 to 0.3 [-].
    clearance : float
        Tip gap over tip radius, 0 to 0.1 [-].
    turned : float
        Built away from the design: every section turned by this angle, positive in the direction of
        rotation [rad].
    """

    count: int
    place_x: float
    hub_chord: float
    tip_chord: float
    thickness: float
    clearance: float = 0.0
    turned: float = 0.0


@dataclass(frozen=True)
class DesignIntent:
    """The state the rows are shaped for: free vortex, axial exit.

    Attributes
    ----------
    stream_speed : float
        Stream speed of the design point, > 0 [m/s].
    head_coefficient : float
        Total-head drop across the stage over half the stream speed squared, CH, 0.05 to 0.9 [-].
    tip_speed_ratio : float
        Rotor speed x tip radius / stream speed, 0.5 to 8 [-].
    """

    stream_speed: float
    head_coefficient: float
    tip_speed_ratio: float


@dataclass(frozen=True)
class Unit:
    """One machine, up to its shaft.

    Attributes
    ----------
    duct, hub, vanes, blades, design
        Its parts and its intent. The rotor's tip radius is the throat radius less the clearance.
    roughness : float
        Equivalent sand roughness of the wetted blades, 0 = smooth [m].
    """

    duct: Duct
    hub: Hub
    vanes: RowIntent
    blades: RowIntent
    design: DesignIntent
    roughness: float = 0.0
