"""Import of logger files into a campaign: read, keep as logged, then commit; the same file twice is one run."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from pathlib import Path

from racewright.errors import InputError
from racewright.records.campaign.header import bare_unit
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
    """

    columns: Mapping[str, str]
    units: Mapping[str, str]
    form: LoggerForm

    @property
    def digest(self) -> str:
        """SHA-256 of all of it, hex."""
        plain = json.dumps([dict(self.columns), dict(self.units), repr(asdict(self.form))], sort_keys=True)
        return hashlib.sha256(plain.encode()).hexdigest()


@dataclass(frozen=True)
class Taken:
    """What became of one file.

    Attributes
    ----------
    run : Run
    fresh : bool
        False when the store had the run already and nothing was done.
    """

    run: Run
    fresh: bool


def take_in(campaign: Campaign, name: str, path: Path, source: Source, shown_as: str, tick: Tick = silent) -> Taken:
    """Import one file as the run `name`.

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
        return Taken(kept, fresh=False)
    channels = sorted(source.columns)
    reading = read_logger(path, [source.columns[c] for c in channels], source.form, shown_as)
    units = [_unit(c, source, reading.told.units, shown_as) for c in channels]
    part = campaign.folder / RAW / f"{name}.{source.digest[:8]}.importing.parquet"
    writer = RawWriter(part, channels, units)
    missing, last = [0] * len(channels), 0.0
    try:
        for chunk in reading.chunks:
            tick(0.0)
            writer.add(chunk)
            missing = [a + int(b) for a, b in zip(missing, chunk.missing.sum(axis=0), strict=True)]
            last = float(chunk.time[-1])
        told = reading.told
        writer.path = part.with_name(f"{name}-{told.sha256[:12]}-{source.digest[:8]}.parquet")
        writer.finish()
    except BaseException:
        writer.drop()
        raise
    run = Run(
        name, path.name, told.sha256, source.digest, writer.path.name, told.rows, last, told.start, told.repeated,
        told.cut_short, told.preamble,
    )  # fmt: skip
    campaign.add_run(run, [(c, source.columns[c], u, m) for c, u, m in zip(channels, units, missing, strict=True)])
    if kept is not None and kept.raw != run.raw:
        campaign.raw_path(kept).unlink(missing_ok=True)
    tick(1.0)
    return Taken(run, fresh=True)


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
    if said and own and bare_unit(own) != said:
        message = f"its row of units says {own!r} for {source.columns[channel]!r}; the scheme says {said!r}"
        raise InputError(message, file=shown_as)
    return said or own
