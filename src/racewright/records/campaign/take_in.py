"""Import of logger files into a campaign: read, keep as logged, then commit; the same file twice is one run."""

from __future__ import annotations

import hashlib
import json
import math
from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass
from pathlib import Path

from racewright.errors import InputError
from racewright.records.campaign.cut_rows import cut_rows
from racewright.records.campaign.form import Chunk
from racewright.records.campaign.header import agreed_unit
from racewright.records.campaign.logger import read_logger
from racewright.records.campaign.logger_form import LoggerForm
from racewright.records.campaign.raw_file import RawWriter
from racewright.records.campaign.store import RAW, Campaign, Run
from racewright.tick import Tick, silent


@dataclass(frozen=True)
class Source:
    """A logger file's columns.

    Attributes
    ----------
    columns : mapping of str to str
        Column of the file by channel.
    units : mapping of str to str
        Unit that the channel is said to be logged in; a file's own row of units must agree.
    form : LoggerForm
    begin, end : float
        Of the run, after the file's first row; infinite end for all of it [s].
    """

    columns: Mapping[str, str]
    units: Mapping[str, str]
    form: LoggerForm
    begin: float = 0.0
    end: float = math.inf

    @property
    def digest(self) -> str:
        """SHA-256 of all of it, hex."""
        parts = [dict(self.columns), dict(self.units), repr(asdict(self.form)), repr((self.begin, self.end))]
        plain = json.dumps(parts, sort_keys=True)
        return hashlib.sha256(plain.encode()).hexdigest()


class Taking:
    """A file being taken in: `rows` reads and keeps it, then `finish` commits the run."""

    def __init__(self, campaign: Campaign, name: str, path: Path, source: Source, shown_as: str, tick: Tick) -> None:
        self._campaign, self._name, self._path, self._source, self._tick = campaign, name, path, source, tick
        self._kept = next((r for r in campaign.runs() if r.run == name), None)
        self._channels = sorted(source.columns)
        self._reading = read_logger(path, [source.columns[c] for c in self._channels], source.form, shown_as)
        self._units = [_unit(c, source, self._reading.told.units, shown_as) for c in self._channels]
        part = campaign.folder / RAW / f"{name}.{source.digest[:8]}.importing.parquet"
        self._writer = RawWriter(part, self._channels, self._units)
        self._missing, self._last, self._rows, self._shown_as = [0] * len(self._channels), 0.0, 0, shown_as

    @property
    def channels(self) -> tuple[str, ...]:
        """Names of the channels in the order of the rows' columns."""
        return tuple(self._channels)

    def rows(self) -> Iterator[Chunk]:
        """The file's rows, each written before it is handed on."""
        source = self._source
        for chunk in cut_rows(self._reading.chunks, source.begin, source.end, self._shown_as):
            self._tick(0.0)
            self._rows += chunk.time.size
            self._writer.add(chunk)
            found = chunk.missing.sum(axis=0)
            self._missing = [a + int(b) for a, b in zip(self._missing, found, strict=True)]
            self._last = float(chunk.time[-1])
            yield chunk

    def finish(self) -> Run:
        """Force the raw file to disk, then commit its run; one of the same name is replaced."""
        told, kept = self._reading.told, self._kept
        name = f"{self._name}-{told.sha256[:12]}-{self._source.digest[:8]}.parquet"
        self._writer.finish(name)
        began = None if told.start is None else told.start + self._source.begin
        run = Run(
            self._name, self._path.name, told.sha256, self._source.digest, name, self._rows, self._last, began,
            told.repeated, told.cut_short, told.preamble,
        )  # fmt: skip
        columns = zip(self._channels, self._units, self._missing, strict=True)
        self._campaign.add_run(run, [(c, self._source.columns[c], u, m) for c, u, m in columns])
        if kept is not None and kept.raw != run.raw:
            self._campaign.raw_path(kept).unlink(missing_ok=True)
        self._tick(1.0)
        return run

    def drop(self) -> None:
        """Leave nothing of it behind."""
        self._writer.drop()


def begin(
    campaign: Campaign, name: str, path: Path, source: Source, shown_as: str, tick: Tick = silent
) -> Taking | Run:
    """Begin to import one file as the run `name`; the run itself where the store has it already.

    Parameters
    ----------
    campaign : Campaign
    name : str
        Of the run; letters, digits, '_', '-', '.'.
    path : Path
    source : Source
    shown_as : str
        Name of the file in messages.
    tick : Tick
        Called after each chunk with 0: how long a file is, is not known before its end.

    Raises
    ------
    InputError
        As `read_logger`; units that contradict the file's own.
    """
    if not name or not all(c.isalnum() or c in "_-." for c in name) or name.startswith("."):
        raise InputError(f"{name!r} is no name of a run; letters, digits, '_', '-' and '.' are wanted", key="run")
    kept = next((r for r in campaign.runs() if r.run == name), None)
    if kept is not None and kept.mapping == source.digest and kept.sha256 == _digest(path, shown_as):
        return kept
    return Taking(campaign, name, path, source, shown_as, tick)


def _digest(path: Path, shown_as: str) -> str:
    try:
        with path.open("rb") as stream:
            return hashlib.file_digest(stream, "sha256").hexdigest()
    except OSError as fault:
        raise InputError(f"cannot be read ({(fault.strerror or str(fault)).lower()})", file=shown_as) from None


def _unit(channel: str, source: Source, told: Mapping[str, str], shown_as: str) -> str:
    """The unit said, which a file's own row of units must not contradict."""
    said = source.units.get(channel, "")
    own = told.get(source.columns[channel], "")
    return agreed_unit(said, own, source.columns[channel], shown_as)
