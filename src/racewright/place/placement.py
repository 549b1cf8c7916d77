"""Where the machine hangs in the transect, and the two radii that matter there."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.errors import InputError
from racewright.place.guard import within


@dataclass(frozen=True)
class Placement:
    """The machine's axis and size; exactly one of hub depth and hub height is given.

    Attributes
    ----------
    position : float
        Distance across the transect [m].
    outer_radius : float
        The duct's largest radius, for cover and clearance, 0.01 to 50 [m].
    capture_radius : float
        Of the disc over which the stream speed is averaged, above 0 and at most `outer_radius` [m].
    hub_depth : float or None
        Axis below the surface, at least `outer_radius`: the machine hangs from floats and follows the level
        [m].
    hub_height : float or None
        Axis above the bed at `position`, at least `outer_radius`: the machine keeps its height [m].

    Raises
    ------
    InputError
        Both or neither given; a number outside its range; a duct that could never be in the water and off the
        bed.
    """

    position: float
    outer_radius: float
    capture_radius: float
    hub_depth: float | None = None
    hub_height: float | None = None

    def __post_init__(self) -> None:
        within("the position across the transect", self.position, -1e5, 1e5, "m")
        within("the duct's outer radius", self.outer_radius, 0.01, 50.0, "m")
        within("the capture radius", self.capture_radius, 1e-3, self.outer_radius, "m")
        if (self.hub_depth is None) == (self.hub_height is None):
            raise InputError("give exactly one of hub depth (below the surface) and hub height (above the bed)")
        name, away = ("hub depth", "surface") if self.hub_height is None else ("hub height", "bed")
        value = self.hub_depth if self.hub_depth is not None else self.hub_height
        assert value is not None  # one of the two, by the check above
        within(f"the {name}", value, 0.0, 1e3, "m")
        if value < self.outer_radius:
            raise InputError(
                f"a {name} of {value:g} m puts a duct of {self.outer_radius:g} m outer radius through the "
                f"{away}; "
                f"it must be {self.outer_radius:g} m or more",
                key="hub_depth" if self.hub_height is None else "hub_height",
            )
