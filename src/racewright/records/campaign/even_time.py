"""Times of a logger's rows: growing, a coarse clock's equal stamps spread evenly."""

from __future__ import annotations

import numpy as np

from racewright.errors import InputError
from racewright.records.campaign.form import Chunk, Floats, Told

Rows = tuple[Floats, Floats, np.typing.NDArray[np.bool_]]


class EvenTime:
    """Takes rows in order and gives chunks back, the last group of equal stamps held until the next is known."""

    def __init__(self, told: Told, shown_as: str) -> None:
        self._told, self._shown = told, shown_as
        self._held: Rows | None = None
        self._step = 0.0

    @property
    def held(self) -> int:
        """How many rows are held back."""
        return 0 if self._held is None else self._held[0].size

    def take(
        self, time: Floats, values: Floats, missing: np.typing.NDArray[np.bool_], *, room: bool = False
    ) -> Chunk | None:
        """Rows whose times are settled; with `room` the first `held` rows are empty and take those held back.

        Raises
        ------
        InputError
            The clock steps back.
        """
        if self._held is not None and room:
            count = self.held
            time[:count], values[:count], missing[:count] = self._held
        elif self._held is not None:
            old = self._held
            time = np.concatenate([old[0], time])
            values, missing = np.concatenate([old[1], values]), np.concatenate([old[2], missing])
        step = np.diff(time)
        if (step < 0.0).any():
            i = int(np.argmax(step < 0.0))
            row = self._told.rows + i + 2
            message = (
                f"the clock steps back by {-step[i]:.6g} s at row {row} below the header; split the file where the"
                " logger was started anew"
            )
            raise InputError(message, file=self._shown)
        last = int(np.searchsorted(time, time[-1], side="left"))
        if last == 0:
            self._held = (time, values, missing)
            return None
        self._held = (time[last:], values[last:], missing[last:])
        return self._chunk(time[:last], values[:last], missing[:last], float(time[last]))

    def rest(self) -> Chunk | None:
        """The rows held back, once no more come."""
        if self._held is None or not self._held[0].size:
            return None
        time, values, missing = self._held
        self._held = None
        return self._chunk(time, values, missing, float(time[-1]) + self._step * time.size)

    def _chunk(self, time: Floats, values: Floats, missing: np.typing.NDArray[np.bool_], following: float) -> Chunk:
        first = np.flatnonzero(np.concatenate([[True], np.diff(time) > 0.0]))
        self._told.rows += time.size
        if first.size < time.size:
            self._told.repeated += time.size - first.size
            count = np.diff(np.append(first, time.size))
            length = np.diff(np.append(time[first], following))
            place = np.arange(time.size) - np.repeat(first, count)
            time = np.repeat(time[first], count) + place * np.repeat(length / count, count)
        if time.size > 1:
            self._step = float(time[-1] - time[0]) / (time.size - 1)
        return Chunk(time, values, missing)
