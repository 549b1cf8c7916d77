"""What a campaign's store holds for the screen: its runs, and the raw trace of a channel with its flags."""

from __future__ import annotations

import math
from collections import OrderedDict
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from racewright.desk.seam import Asked
from racewright.errors import InputError

if TYPE_CHECKING:
    from racewright.records.campaign.extremes import Extremes

STRETCHES = 1200
"""Stretches of time that a trace is drawn in: one for each dot of a wide screen. Own choice."""
MARKED = 300
"""Flagged spans that a screen marks; beyond it neighbours become one. Own choice."""
_HELD = 8

_OVERVIEWS: OrderedDict[tuple[str, str, int], Extremes] = OrderedDict()


@dataclass(frozen=True)
class KeptChannel:
    """A channel of a run as the store has it: name, column of the logger's file, unit as logged."""

    name: str
    column: str
    unit: str


@dataclass(frozen=True)
class KeptRun:
    """A run as the store has it.

    Attributes
    ----------
    run, file : str
        Its name; name of the logger's file.
    rows : int
        [-]
    seconds : float
        From first to last row [s].
    repeated : int
        Rows with the stamp of the row before [-].
    cut_short : bool
    channels : tuple of KeptChannel
    """

    run: str
    file: str
    rows: int
    seconds: float
    repeated: int
    cut_short: bool
    channels: tuple[KeptChannel, ...]


@dataclass(frozen=True)
class FlaggedSpan:
    """Readings that are not believed, side by side: from `start` to `end` after the run's first row [s]."""

    start: float
    end: float
    reason: str


@dataclass(frozen=True)
class Trace:
    """A raw channel in at most `STRETCHES` stretches, every extreme kept.

    Attributes
    ----------
    run, channel, unit : str
        Values are as logged, in this unit.
    time : sequence of float
        Where each stretch begins, after the run's first row [s].
    least, greatest : sequence of float or None
        None where all cells are blank.
    rows : int
        Of the whole run [-].
    flags : tuple of FlaggedSpan
        Those in sight; neighbours joined where there are too many to draw.
    flagged : int
        Flagged spans in sight before any were joined [-].
    """

    run: str
    channel: str
    unit: str
    time: Sequence[float]
    least: Sequence[float | None]
    greatest: Sequence[float | None]
    rows: int
    flags: tuple[FlaggedSpan, ...]
    flagged: int


UNITS = {
    "KeptRun": {"rows": "-", "seconds": "s", "repeated": "-"},
    "FlaggedSpan": {"start": "s", "end": "s"},
    "Trace": {"time": "s", "least": "-", "greatest": "-", "rows": "-", "flagged": "-"},
}


def kept_runs(asked: Asked) -> dict[str, Any]:
    """Runs of the case's store, or why it tells none."""
    from racewright.records.campaign.store import open_campaign

    folder, _rate = _where(asked)
    if folder is None or not folder.is_dir():
        return {"runs": [], "reason": ""}
    try:
        with open_campaign(folder) as campaign:
            runs = [
                KeptRun(
                    r.run,
                    r.file,
                    r.rows,
                    r.duration,
                    r.repeated,
                    r.cut_short,
                    tuple(KeptChannel(*c) for c in campaign.channels(r.run)),
                )
                for r in campaign.runs()
            ]
    except InputError as fault:
        return {"runs": [], "reason": str(fault)}
    return {"runs": runs, "reason": ""}


def trace(asked: Asked) -> dict[str, Any]:
    """The raw trace that the options name: `run`, `channel`, `start`, `end`; None without a run."""
    wanted = asked.options
    folder, rate = _where(asked)
    if folder is None or not wanted.run or not wanted.channel:
        return {"trace": None}
    return {"trace": trace_of(folder, rate, wanted.run, wanted.channel, wanted.start, wanted.end)}


def trace_of(folder: Path, rate: float, run: str, channel: str, start: float, end: float | None) -> Trace:
    """A trace from a store.

    Parameters
    ----------
    folder : Path
        The campaign's.
    rate : float
        Rows a second of the even grid that flags count in [Hz].
    run, channel : str
        Names as the store has them; they are looked up, never used as a path.
    start, end : float
        Span of time, to the end where None [s].

    Raises
    ------
    InputError
        No such run or channel, no store, or one in use.
    """
    from racewright.records.campaign.store import open_campaign

    with open_campaign(folder) as campaign:
        found = next((r for r in campaign.runs() if r.run == run), None)
        units = {} if found is None else {name: unit for name, _column, unit in campaign.channels(run)}
        if found is None or channel not in units:
            what = f"no run {run[:60]!r}" if found is None else f"run {run[:60]!r} has no channel {channel[:60]!r}"
            raise InputError(f"{what} in the campaign's store", file=str(folder))
        until = found.duration if end is None else end
        drawn = _drawn(campaign.raw_path(found), channel, start, until)
        rows = campaign.rows("flag", run)
    flags = [(a / rate, b / rate, why) for _run, name, a, b, why in rows if name == channel]
    seen = [f for f in flags if f[1] >= start and f[0] <= until]
    spans = joined(seen, MARKED)
    return Trace(
        run,
        channel,
        units[channel],
        drawn.time.tolist(),
        [None if math.isnan(v) else v for v in drawn.least.tolist()],
        [None if math.isnan(v) else v for v in drawn.greatest.tolist()],
        found.rows,
        tuple(FlaggedSpan(*one) for one in spans),
        len(seen),
    )


def joined(spans: Sequence[tuple[float, float, str]], most: int) -> list[tuple[float, float, str]]:
    """At most about so many spans: those nearer to each other than a drawing tells apart become one."""
    if len(spans) <= most:
        return list(spans)
    apart = (max(s[1] for s in spans) - min(s[0] for s in spans)) / most
    found: list[tuple[float, float, str]] = []
    for start, end, why in sorted(spans):
        if found and start - found[-1][1] <= apart:
            reason = found[-1][2] if why in found[-1][2].split(", ") else f"{found[-1][2]}, {why}"
            found[-1] = (found[-1][0], max(found[-1][1], end), reason)
        else:
            found.append((start, end, why))
    return found


def _drawn(path: Path, channel: str, start: float, end: float) -> Extremes:
    """From the overview where it is fine enough, else from the rows themselves."""
    from racewright.records.campaign.extremes import overview, window

    key = (str(path), channel, path.stat().st_mtime_ns)
    if key not in _OVERVIEWS:
        _OVERVIEWS[key] = overview(path, channel)
    _OVERVIEWS.move_to_end(key)
    while len(_OVERVIEWS) > _HELD:
        _OVERVIEWS.popitem(last=False)
    seen = _OVERVIEWS[key].between(start, end)
    if seen.time.size <= STRETCHES:
        seen = window(path, channel, start, end)
    return seen.joined(STRETCHES)


def _where(asked: Asked) -> tuple[Path | None, float]:
    """Folder of the case's store and rate of its grid; None where the case has no trials."""
    from racewright.ledger.inputs import case_of
    from racewright.ledger.trials_kept import campaign_folder

    _name, case = case_of(asked.loaded, asked.options.case)
    if case.trials is None:
        return None, 1.0
    return campaign_folder(asked.loaded, case.trials), float(asked.loaded.scheme.trials[case.trials].logger.rate)
