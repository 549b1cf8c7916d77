"""Stamps that repeat or go back: said, or sorted and counted; loads no numerical library."""

from __future__ import annotations

from array import array

from racewright.records.cells import shorten


def disorder(text: str, same: bool, last: str) -> str:
    """Explain a stamp that does not follow the one before it; `last` names where that stands ('line 4')."""
    if same:
        return f"{shorten(text)} is the same moment as {last}; keep one row for each"
    return (
        f"{shorten(text)} is earlier than {last}; sort the rows by time or say order = 'any', and where clocks "
        "were set back give stamps with their offset"
    )


class Clash(ValueError):
    """One moment has two values.

    Parameters
    ----------
    first, second : int
        Where the two stand in the file.
    """

    def __init__(self, first: int, second: int, word: str) -> None:
        super().__init__(f"gives another value for the moment of {word} {first}; keep one row for each moment")
        self.second = second


def sort_rows(
    times: array[int], values: array[float], places: array[int], word: str
) -> tuple[array[int], array[float], int]:
    """Sort rows by time; of rows with the same stamp and value keep one.

    Parameters
    ----------
    times : array of int
        Stamps [s].
    values : array of float
    places : array of int
        Where each row stands in the file: line or row number.
    word : str
        What `places` counts, 'line' or 'row'.

    Returns
    -------
    times, values, repeated
        Sorted, stamps strictly growing; the number of rows left out.

    Raises
    ------
    Clash
        Rows with the same stamp and different values.
    """
    sorted_times, sorted_values, repeated, last = array("q"), array("d"), 0, -1
    for i in sorted(range(len(times)), key=times.__getitem__):
        if last >= 0 and times[i] == times[last]:
            if values[i] != values[last]:
                raise Clash(places[last], places[i], word)
            repeated += 1
            continue
        sorted_times.append(times[i])
        sorted_values.append(values[i])
        last = i
    return sorted_times, sorted_values, repeated
