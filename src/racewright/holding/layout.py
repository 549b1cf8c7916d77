"""A body on its lines at the place where it is meant to float."""

from __future__ import annotations

from dataclasses import dataclass, replace

from racewright.errors import InputError
from racewright.holding.body import Body, Point
from racewright.holding.checked import vector
from racewright.holding.tether import Tether
from racewright.machine.drive_checks import number


@dataclass(frozen=True, slots=True)
class Layout:
    """A body, its lines and its intended place.

    Attributes
    ----------
    body : Body
    tethers : tuple of Tether
        One or more, names all different.
    position : tuple of float
        Intended place of the body's origin; offsets count from it, searches start there [m].
    yaw : float
        Intended heading of the machine's axis from x towards y [rad].
    """

    body: Body
    tethers: tuple[Tether, ...]
    position: Point
    yaw: float = 0.0

    def __post_init__(self) -> None:
        object.__setattr__(self, "position", vector("The body's intended position", self.position))
        number("The intended yaw", self.yaw, -20.0, 20.0, "rad")
        names = [t.name for t in self.tethers]
        if not names or len(set(names)) != len(names):
            raise InputError(f"A layout wants one or more tethers with different names; found {names}.")

    def without(self, name: str) -> Layout:
        """The layout after the line `name` is lost."""
        left = tuple(t for t in self.tethers if t.name != name)
        if len(left) == len(self.tethers):
            raise InputError(f"No tether is called '{name}'; there are {[t.name for t in self.tethers]}.")
        return replace(self, tethers=left)
