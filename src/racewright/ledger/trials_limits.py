"""What a campaign's tables say against what there is: the model against its channel, times against the run's file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from racewright.errors import InputError
from racewright.records.campaign.form import Chunk
from racewright.records.campaign.logger_rate import check_rate

Keys = Mapping[str, Any]
SLACK = 1.0
"""Seconds by which a time may pass the end of a run's file, since files end within a second. Own choice."""
_LOOKED_AT = 2000
"""Rows by which the rate is told."""


def check_fits(rig: Keys, name: str, run: Keys, duct_radius: float) -> None:
    """Refuse a channel that the duct is not inside of.

    Parameters
    ----------
    rig, run : mapping
        The tables of the rig and of one run, whose own width and depth come first.
    name : str
        Of the run.
    duct_radius : float
        Outer radius of the duct [m].

    Raises
    ------
    InputError
        Its key is the role path of the number that is too small.
    """
    across = 2.0 * duct_radius
    for key, word in (("width", "wide"), ("depth", "deep")):
        own = run[key] is not None
        size = run[key] if own else rig[key]
        if not size > across:
            message = (
                f"in run {name!r} the channel is {size:g} m {word} and the duct {across:.4g} m across; a channel"
                f" larger than the duct is wanted, so {key} above {across:.4g} m"
            )
            raise InputError(message, key=f"trials.runs.{name}.{key}" if own else f"trials.rig.{key}")


def check_times(name: str, run: Keys, seconds: float, cell: float, file: str) -> None:
    """Refuse tares and a cleaning beyond the end of a run.

    Parameters
    ----------
    name : str
        Of the run.
    run : mapping
        Its table.
    seconds : float
        From the run's first row to its last [s].
    cell : float
        By which the run's length may be rounded down [s].
    file : str
        Name of the logger's file, for the message.

    Raises
    ------
    InputError
        Its key is the role path of the time.
    """
    times = [(f"tares.{tare}.{key}", span[key]) for tare, span in run["tares"].items() for key in ("start", "end")]
    if run["cleaned"] is not None:
        times.append(("cleaned", run["cleaned"]))
    for key, time in sorted(times, key=lambda one: one[1]):
        if time > seconds + cell + SLACK:
            part = "" if run["begin"] is None and run["end"] is None else ", as begin and end cut it,"
            message = (
                f"{time:g} s lies beyond the end of run {name!r}: {file}{part} ends {seconds:.6g} s after the run's"
                f" first row; a time up to {seconds:.6g} s is wanted"
            )
            raise InputError(message, key=f"trials.runs.{name}.{key}")


def rated(chunks: Iterable[Chunk], logger: Keys, file: str) -> Iterator[Chunk]:
    """The same rows; a stated rate that the first of them contradict is refused."""
    rows = iter(chunks)
    for first in rows:
        if logger["clock"] != "rate":
            check_rate(first.time[:_LOOKED_AT].tolist(), logger["rate"], file)
        yield first
        break
    yield from rows


def of_run(fault: InputError, name: str) -> InputError:
    """A fault of a run's own stretch (`begin`, `end`), pointed at the run's table; any other as it is."""
    if fault.key in ("begin", "end") and fault.line is None:
        return InputError(f"run {name!r}: {fault.message}", key=f"trials.runs.{name}.{fault.key}")
    return fault
