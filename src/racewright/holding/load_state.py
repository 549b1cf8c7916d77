"""What the machine does to the body in one state, over stream speed: thrust, roll moment, drag."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import ArrayLike

from racewright.errors import InputError
from racewright.holding.checked import Floats, array, label


@dataclass(frozen=True, slots=True)
class LoadState:
    """Loads of one state: on load, runaway, held, clogged, a tree held on the nose, anything of that kind.

    Between the speeds each load over speed squared is interpolated; it is held below the first and above the last.

    Attributes
    ----------
    name : str
        E.g. 'on load', 'loss of load', 'clogged 50 %', 'held tree'.
    stream_speed : ndarray, shape (k,)
        Growing, > 0 [m/s].
    thrust : ndarray, shape (k,)
        Along the machine's axis, positive from inlet to exit, at the component of speed along that axis [N].
    roll_moment : ndarray, shape (k,)
        About the axis, right-handed about the way from inlet to exit [N m].
    drag : ndarray, shape (k,)
        Of frame, floats and what hangs on them, along the stream, >= 0, default 0 [N].
    """

    name: str
    stream_speed: Floats
    thrust: Floats
    roll_moment: Floats
    drag: Floats = field(default_factory=lambda: np.zeros(0))

    def __post_init__(self) -> None:
        label("A load state's name", self.name)
        speed = array(f"The speeds of '{self.name}'", self.stream_speed, (-1,))
        if speed[0] <= 0.0 or np.any(np.diff(speed) <= 0.0):
            raise InputError(f"The speeds of '{self.name}' must be above 0 m/s and grow from one to the next.")
        drag = np.zeros(speed.size) if np.size(self.drag) == 0 else self.drag
        object.__setattr__(self, "stream_speed", speed)
        for name, values in (("thrust", self.thrust), ("roll_moment", self.roll_moment), ("drag", drag)):
            object.__setattr__(self, name, array(f"The {name} of '{self.name}'", values, (speed.size,)))
        if np.any(self.drag < 0.0):
            raise InputError(f"The drag of '{self.name}' is negative somewhere; it must be 0 N or more.")

    @property
    def coefficients(self) -> Floats:
        """Rows of speed, then thrust, roll moment and drag over speed squared, shape (4, k)."""
        square = self.stream_speed**2
        return np.stack([self.stream_speed, self.thrust / square, self.roll_moment / square, self.drag / square])


def steady_state(name: str, thrust: ArrayLike, roll_moment: ArrayLike, drag: ArrayLike, at: float) -> LoadState:
    """A state whose loads go with speed squared, given at one stream speed `at` [m/s]."""
    one = [np.atleast_1d(np.asarray(v, dtype=np.float64)) for v in (thrust, roll_moment, drag)]
    return LoadState(name, np.array([at]), *one)


def still(name: str = "still water") -> LoadState:
    """No load at all."""
    return LoadState(name, np.array([1.0]), np.zeros(1), np.zeros(1))
