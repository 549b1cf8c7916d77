"""A campaign out of its store: raw data and all that was made of them, in open formats."""

from __future__ import annotations

import csv
import json
import shutil
from collections.abc import Callable, Iterator, Mapping
from dataclasses import asdict
from pathlib import Path
from types import MappingProxyType
from typing import Any, Literal

import numpy as np
import pyarrow as pa
import pyarrow.csv as pacsv
import pyarrow.parquet as pq
from scipy.io import netcdf_file

from racewright.errors import InputError
from racewright.records.campaign.raw_file import TIME
from racewright.records.campaign.store import Campaign, Run
from racewright.records.forced import force
from racewright.tick import Tick, silent

Kind = Literal["csv", "parquet", "netcdf"]
_LARGEST_NETCDF = 2**31 - 4
"""Bytes of one variable in the classic format."""
_HEADS = {
    "flag": ("run", "channel", "first_row", "last_row", "reason"),
    "span": ("run", "span", "begin_s", "end_s", "steady", "reason"),
    "zero": ("run", "channel", "time_s", "value_si", "standard_error_si", "raw"),
    "reading": ("run", "span", "quantity", "value", "standard_uncertainty", "degrees_of_freedom", "unit"),
}

_NOTHING: Mapping[str, Any] = MappingProxyType({})


def export_campaign(
    campaign: Campaign, folder: Path, kind: Kind, tick: Tick = silent, beside: Mapping[str, Any] = _NOTHING
) -> list[Path]:
    """Write every run and table to a new folder; it appears whole or not at all.

    Parameters
    ----------
    campaign : Campaign
    folder : Path
        Must not exist yet.
    kind : {'csv', 'parquet', 'netcdf'}
        Of the raw data; the tables go as CSV beside them, `runs.json` says what each run is.
    tick : Tick
    beside : mapping of str to plain values
        What else goes along as JSON, by the file's name without ending.

    Returns
    -------
    list of Path
        The files, in order.

    Raises
    ------
    InputError
        The folder exists or cannot be written; a run too long for classic NetCDF.
    """
    if folder.exists():
        raise InputError("exists already; name a new folder", file=str(folder))
    part = folder.with_name(folder.name + ".part")
    try:
        shutil.rmtree(part, ignore_errors=True)
        part.mkdir(parents=True)
        runs = campaign.runs()
        for done, run in enumerate(runs):
            tick(done / max(len(runs), 1))
            _RAW[kind](campaign, run, part)
        for table, head in _HEADS.items():
            _table(part / f"{table}s.csv", head, campaign.rows(table))
        about = [{**asdict(r), "channels": _channels(campaign, r)} for r in runs]
        (part / "runs.json").write_text(json.dumps(about, indent=1, allow_nan=False), "utf-8")
        for name, value in beside.items():
            (part / f"{name}.json").write_text(json.dumps(value, indent=1, allow_nan=False, default=str), "utf-8")
        for file in part.iterdir():
            force(file)
        force(part)
        part.rename(folder)
        force(folder.parent)
    except OSError as fault:
        shutil.rmtree(part, ignore_errors=True)
        raise InputError(f"cannot be written ({(fault.strerror or str(fault)).lower()})", file=str(folder)) from None
    except BaseException:
        shutil.rmtree(part, ignore_errors=True)
        raise
    return sorted(folder.iterdir())


def _channels(campaign: Campaign, run: Run) -> list[dict[str, str]]:
    return [{"channel": a, "file_column": b, "unit": c} for a, b, c in campaign.channels(run.run)]


def _table(path: Path, head: tuple[str, ...], rows: list[tuple[Any, ...]]) -> None:
    with path.open("w", encoding="utf-8", newline="") as stream:
        writer = csv.writer(stream, lineterminator="\n")
        writer.writerow(head)
        writer.writerows(["" if cell is None else cell for cell in row] for row in rows)


def _batches(campaign: Campaign, run: Run) -> Iterator[pa.RecordBatch]:
    with pq.ParquetFile(campaign.raw_path(run)) as file:
        yield from file.iter_batches(1 << 17)


def _csv(campaign: Campaign, run: Run, folder: Path) -> None:
    units = {channel: unit for channel, _column, unit in campaign.channels(run.run)}
    with (folder / f"{run.run}.csv").open("wb") as stream:
        names = pq.read_schema(campaign.raw_path(run)).names
        said = ", ".join(f"{n}: {'s' if n == TIME else units.get(n, '') or 'unit not said'}" for n in names)
        stream.write(f"# raw data as logged; units: {said}\n".encode())
        head = True
        for batch in _batches(campaign, run):
            pacsv.write_csv(batch, stream, pacsv.WriteOptions(include_header=head, quoting_style="needed"))
            head = False


def _parquet(campaign: Campaign, run: Run, folder: Path) -> None:
    shutil.copyfile(campaign.raw_path(run), folder / f"{run.run}.parquet")


def _netcdf(campaign: Campaign, run: Run, folder: Path) -> None:
    if run.rows * 8 > _LARGEST_NETCDF:
        raise InputError(f"run {run.run!r} has {run.rows} rows, too many for classic NetCDF; export Parquet")
    units = {channel: unit for channel, _column, unit in campaign.channels(run.run)}
    file: Any  # its attributes are made as they are set
    with netcdf_file(folder / f"{run.run}.nc", "w", version=2) as file:
        file.title = f"raw data of {run.run} as logged".encode()
        file.source_file, file.source_sha256 = run.file.encode(), run.sha256.encode()
        file.createDimension("row", run.rows)
        names = pq.read_schema(campaign.raw_path(run)).names
        stored = {name: file.createVariable(name, "f8", ("row",)) for name in names}
        for name, variable in stored.items():
            variable.units = ("s" if name == TIME else units.get(name, "")).encode()
            variable.missing_value = np.float64(np.nan)
        at = 0
        for batch in _batches(campaign, run):
            for name in names:
                stored[name][at : at + batch.num_rows] = batch.column(name).to_numpy(zero_copy_only=False)
            at += batch.num_rows


_RAW: dict[str, Callable[[Campaign, Run, Path], None]] = {"csv": _csv, "parquet": _parquet, "netcdf": _netcdf}
