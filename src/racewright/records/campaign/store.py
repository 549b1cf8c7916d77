"""The store of one campaign: a DuckDB file for what is known, Parquet files for what was logged."""

from __future__ import annotations

import errno
import fcntl
import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import duckdb
import pyarrow as pa

from racewright.errors import InputError
from racewright.records.arrow_columns import column_of
from racewright.records.campaign.form import Chunk
from racewright.records.campaign.raw_file import raw_chunks
from racewright.records.campaign.reading_columns import ReadingColumns
from racewright.records.campaign.tables import STEPS, VERSION
from racewright.records.forced import force

DATABASE = "campaign.duckdb"
RAW = "raw"
CELLS = "cells"
MARKER = ".racewright-campaign"
SpanRow = tuple[float, float, bool, str]
"""Begin and end [s], whether it is steady, why not."""
ZeroRow = tuple[str, float, float, float, float]
"""Channel, time [s], zero and its standard error [SI], raw reading."""
_LOCK = ".lock"
_RUN_COLUMNS = "run, file, sha256, mapping, raw, rows, seconds, start_utc_s, repeated, cut_short, preamble"
"""Of the table, in the order of the fields of `Run`."""
_ORDER = {
    "flag": "run, first_row, channel, last_row",
    "span": "run, span",
    "reading": "run, span, quantity",
    "zero": "run, channel, time_s",
}
_NOT_WRITABLE = (errno.EACCES, errno.EPERM, errno.EROFS, errno.ENOSPC, errno.EDQUOT)


@dataclass(frozen=True)
class Run:
    """One run as the store knows it.

    Attributes
    ----------
    run, file : str
        Name of the run; name of the file that it came from.
    sha256, mapping : str
        Of the file's bytes; of the mapping that it was read by, hex.
    raw : str
        Name of the Parquet file below `raw/`.
    rows : int
    duration : float
        From first to last row [s].
    start_utc : float or None
        Stamp of the first row, since 1970-01-01 UTC [s].
    repeated : int
        Rows with the stamp of the row before.
    cut_short : bool
        True when the file's last line had no end and was left out.
    preamble : str
        What stands above the file's header.
    """

    run: str
    file: str
    sha256: str
    mapping: str
    raw: str
    rows: int
    duration: float
    start_utc: float | None
    repeated: int
    cut_short: bool
    preamble: str


class Campaign:
    """An open store; from `open_campaign`."""

    def __init__(self, folder: Path, link: duckdb.DuckDBPyConnection) -> None:
        self.folder, self._link = folder, link

    def runs(self) -> list[Run]:
        """All runs, by name."""
        found = self._link.execute(f"select {_RUN_COLUMNS} from run order by run").fetchall()
        return [Run(*row) for row in found]

    def channels(self, run: str) -> list[tuple[str, str, str]]:
        """(channel, column of the file, unit) of a run, by name."""
        found = self._link.execute(
            "select channel, file_column, unit from channel where run = ? order by channel", [run]
        )
        return [(str(a), str(b), str(c)) for a, b, c in found.fetchall()]

    def raw_path(self, run: Run) -> Path:
        """Where a run's raw data stand."""
        return self.folder / RAW / run.raw

    def chunks(self, run: Run, channels: Sequence[str]) -> Iterator[Chunk]:
        """The run's rows as logged, in order."""
        return raw_chunks(self.raw_path(run), channels)

    def add_run(self, run: Run, channels: Sequence[tuple[str, str, str, int]]) -> None:
        """Commit a run whose raw file stands; one of the same name is replaced, with all that was made of it.

        Parameters
        ----------
        run : Run
        channels : sequence of (channel, column of the file, unit, missing cells)
        """
        with self._whole():
            for table in ("channel", "flag", "span", "reading", "zero", "reduction", "windows", "cells", "run"):
                self._link.execute(f"delete from {table} where run = ?", [run.run])
            marks = ", ".join("?" * len(Run.__dataclass_fields__))
            self._link.execute(
                f"insert into run ({_RUN_COLUMNS}) values ({marks})",
                [getattr(run, f) for f in run.__dataclass_fields__],
            )
            for channel in channels:
                self._link.execute("insert into channel values (?, ?, ?, ?, ?)", [run.run, *channel])

    def put_reduction(
        self,
        run: str,
        recipe: str,
        spans: Sequence[SpanRow],
        readings: ReadingColumns,
        zeros: Sequence[ZeroRow] = (),
    ) -> None:
        """Commit what was made of a run, in place of what was there.

        Parameters
        ----------
        run, recipe : str
            Name of the run; digest of all that the reduction depends on.
        spans : sequence of (begin [s], end [s], steady, reason)
        readings : ReadingColumns
        zeros : sequence of (channel, time [s], zero [SI], its standard error [SI], raw reading)
        """
        with self._whole():
            for table in ("span", "reading", "zero", "reduction"):
                self._link.execute(f"delete from {table} where run = ?", [run])
            self._many("span", run, [(i, *one) for i, one in enumerate(spans)])
            self._insert("reading", run, readings.table())
            self._many("zero", run, zeros)
            self._link.execute("insert into reduction values (?, ?)", [run, recipe])

    def put_cells(
        self, run: str, recipe: str, file: str, counts: str, flags: Sequence[tuple[str, int, int, str]]
    ) -> None:
        """Commit a run's cells whose file stands, with the flags found on the way; what was made of others goes.

        Parameters
        ----------
        run, recipe : str
            Name of the run; digest of all that the cells depend on.
        file : str
            Name of the Parquet file below `cells/`; empty where the run is shorter than a cell.
        counts : str
            Flags by channel, as JSON.
        flags : sequence of (channel, first row, last row, reason)
            Rows of the even grid at the logger's rate.
        """
        with self._whole():
            for table in ("flag", "span", "reading", "zero", "reduction", "windows", "cells"):
                self._link.execute(f"delete from {table} where run = ?", [run])
            self._many("flag", run, flags)
            self._link.execute("insert into cells values (?, ?, ?, ?)", [run, recipe, file, counts])

    def cells(self, run: str) -> tuple[str, str, str] | None:
        """Recipe, file and flag counts (JSON) of a run's kept cells; None without."""
        found = self._link.execute("select recipe, file, counts from cells where run = ?", [run]).fetchone()
        return None if found is None else (str(found[0]), str(found[1]), str(found[2]))

    def put_windows(self, run: str, recipe: str, file: str) -> None:
        """Commit what the search found in a run's cells, whose file stands below `cells/`.

        Parameters
        ----------
        run, recipe, file : str
            Name of the run; digest of all that the windows depend on; name of the file.
        """
        with self._whole():
            self._link.execute("delete from windows where run = ?", [run])
            self._link.execute("insert into windows values (?, ?, ?)", [run, recipe, file])

    def windows(self, run: str) -> tuple[str, str] | None:
        """Recipe and file of a run's kept windows; None without."""
        found = self._link.execute("select recipe, file from windows where run = ?", [run]).fetchone()
        return None if found is None else (str(found[0]), str(found[1]))

    def recipe(self, run: str) -> str | None:
        """What the kept reduction of a run depends on; None without one."""
        found = self._link.execute("select recipe from reduction where run = ?", [run]).fetchone()
        return str(found[0]) if found else None

    def rows(self, table: str, run: str | None = None) -> list[tuple[Any, ...]]:
        """Rows of 'flag', 'span', 'reading' or 'zero', in a fixed order."""
        if table not in _ORDER:
            raise ValueError(table)
        where = "" if run is None else "where run = ?"
        query = f"select * from {table} {where} order by {_ORDER[table]}"
        return self._link.execute(query, [] if run is None else [run]).fetchall()

    def _many(self, table: str, run: str, rows: Sequence[tuple[Any, ...]]) -> None:
        """Insert rows of a run as one Arrow table; one statement a row would take seconds for a noisy run."""
        if rows:
            arrays = [column_of(column) for column in zip(*rows, strict=True)]
            self._insert(table, run, pa.Table.from_arrays(arrays, [f"c{i}" for i in range(len(arrays))]))

    def _insert(self, table: str, run: str, rows: pa.Table | None) -> None:
        """Insert rows of a run, its name before them; nothing for None."""
        if rows is not None:
            self._link.register("incoming", rows)
            self._link.execute(f"insert into {table} select ?, * from incoming", [run])
            self._link.unregister("incoming")

    @contextmanager
    def _whole(self) -> Iterator[None]:
        """All statements or none."""
        self._link.begin()
        try:
            yield
        except BaseException:
            self._link.rollback()
            raise
        self._link.commit()


@contextmanager
def open_campaign(folder: Path, *, make: bool = False) -> Iterator[Campaign]:
    """Open the store of a campaign for this process alone.

    Leftovers of killed imports are swept: part files, and raw files that no run names.

    Parameters
    ----------
    folder : Path
    make : bool
        Make the store when there is none.

    Raises
    ------
    InputError
        No store there; a folder of something else; in use by another process; written by a newer program; damaged;
        a folder that cannot be written, which opening alone wants already (its lock), or a full disk.
    """
    _prepare(folder, make)
    try:
        with _opened(folder) as campaign:
            yield campaign
    except OSError as fault:
        if fault.errno not in _NOT_WRITABLE:
            raise
        reason = os.strerror(fault.errno or 0).lower()
        message = (
            f"cannot be written ({reason}); make it and all in it writable, or work on a copy of the scheme's folder"
        )
        raise InputError(message, file=str(folder)) from None


@contextmanager
def _opened(folder: Path) -> Iterator[Campaign]:
    with _alone(folder):
        try:
            link = duckdb.connect(str(folder / DATABASE))
        except duckdb.Error as fault:
            said = str(fault).split("\n")[0][:160]
            message = f"its database cannot be opened ({said}); a program that reads it must be closed first"
            raise InputError(message, file=str(folder)) from None
        try:
            _migrate(link, folder)
            _sweep(folder, link)
            yield Campaign(folder, link)
        finally:
            link.close()


def _prepare(folder: Path, make: bool) -> None:
    try:
        if not (folder / MARKER).is_file():
            if not make:
                raise InputError("holds no campaign yet; 'racewright trials import' makes one", file=str(folder))
            if folder.exists() and any(folder.iterdir()):
                raise InputError("is not empty and holds no campaign; name a new folder", file=str(folder))
            folder.mkdir(parents=True, exist_ok=True)
            (folder / MARKER).write_text("A campaign of channel tests, kept by racewright.\n", "utf-8")
        for part in (RAW, CELLS):
            (folder / part).mkdir(exist_ok=True)
    except OSError as fault:
        raise InputError(f"cannot be written ({(fault.strerror or str(fault)).lower()})", file=str(folder)) from None


@contextmanager
def _alone(folder: Path) -> Iterator[None]:
    """One process at a time; the next is told whose turn it is."""
    with (folder / _LOCK).open("a+") as lock:
        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            lock.seek(0)
            who = lock.read(20).strip()
            by = f" by process {who}" if who.isdigit() else ""
            raise InputError(f"the campaign is in use{by}; wait until it is done", file=str(folder)) from None
        lock.truncate(0)
        lock.write(str(os.getpid()))
        lock.flush()
        yield


def _migrate(link: duckdb.DuckDBPyConnection, folder: Path) -> None:
    """Bring the tables to today's version, each step whole."""
    there = {row[0] for row in link.execute("select table_name from information_schema.tables").fetchall()}
    version = 0
    if "about" in there:
        found = link.execute("select value from about where key = 'version'").fetchone()
        version = int(found[0]) if found else 0
    if version > VERSION:
        message = f"its store has version {version}, newer than this program's {VERSION}; update racewright"
        raise InputError(message, file=str(folder))
    for step in range(version + 1, VERSION + 1):
        link.begin()
        for statement in STEPS[step]:
            link.execute(statement)
        link.execute("insert or replace into about values ('version', ?)", [str(step)])
        link.commit()


def _sweep(folder: Path, link: duckdb.DuckDBPyConnection) -> None:
    """Remove what a killed import or reduction left."""
    of_cells = "select file from cells union all select file from windows"
    for part, query in ((RAW, "select raw from run"), (CELLS, of_cells)):
        named = {row[0] for row in link.execute(query).fetchall()}
        swept = False
        for file in sorted((folder / part).iterdir()):
            if file.is_file() and (file.name.endswith(".part") or file.name not in named):
                file.unlink()
                swept = True
        if swept:
            force(folder / part)
