"""Logger files as TDMS, an extra: `pip install racewright[tdms]`."""

from __future__ import annotations

import hashlib
import importlib
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import numpy as np

from racewright.errors import InputError, MissingColumn
from racewright.records.campaign.even_time import EvenTime
from racewright.records.campaign.form import Chunk, Floats, Reading, Told
from racewright.records.campaign.logger_form import LoggerForm
from racewright.records.cells import shorten
from racewright.records.text_file import check_file

ROWS = 1 << 17
"""Rows taken at a time."""


def read_logger_tdms(path: Path, columns: Sequence[str], form: LoggerForm, shown_as: str) -> Reading:
    """Read the wanted channels of a TDMS file; 'group/channel' or 'channel' names one.

    Other parameters, answer and errors as for `read_logger_csv`; the channels must be of one length.
    """
    check_file(path, "TDMS", shown_as)
    try:
        nptdms = importlib.import_module("nptdms")
    except ImportError:
        message = "TDMS needs the extra: pip install 'racewright[tdms]'; or save the file as CSV"
        raise InputError(message, file=shown_as) from None
    wanted = list(columns) if form.clock == "rate" else [form.time_column, *columns]
    told = Told()
    return Reading(told, _chunks(nptdms, path, tuple(columns), tuple(wanted), form, told, shown_as))


def _chunks(
    nptdms: Any,
    path: Path,
    columns: tuple[str, ...],
    wanted: tuple[str, ...],
    form: LoggerForm,
    told: Told,
    shown_as: str,
) -> Iterator[Chunk]:
    with path.open("rb") as stream:
        told.sha256 = hashlib.file_digest(stream, "sha256").hexdigest()
    clock = EvenTime(told, shown_as)
    try:
        file = nptdms.TdmsFile.open(path)
    except (ValueError, KeyError, OSError, EOFError, IndexError) as fault:
        raise InputError(f"cannot be read as TDMS: {str(fault)[:160]}", file=shown_as) from None
    with file:
        channels = {name: _channel(file, name, shown_as) for name in wanted}
        lengths = {len(c) for c in channels.values()}
        if len(lengths) != 1:
            raise InputError(f"its channels differ in length: {sorted(lengths)}", file=shown_as)
        for name in columns:
            unit = channels[name].properties.get("unit_string") or channels[name].properties.get("NI_UnitDescription")
            if unit:
                told.units[name] = str(unit)[:40]
        size = lengths.pop()
        for first in range(0, size, ROWS):
            chunk = clock.take(*_part(channels, columns, form, told, first, min(ROWS, size - first), shown_as))
            if chunk is not None:
                yield chunk
    if (last := clock.rest()) is not None:
        yield last
    if not told.rows:
        raise InputError("holds no rows", file=shown_as)


def _channel(file: Any, name: str, shown_as: str) -> Any:
    """The channel of that name, alone or with its group."""
    found = [c for g in file.groups() for c in g.channels() if name in (c.name, f"{g.name}/{c.name}")]
    if len(found) == 1:
        return found[0]
    listed = ", ".join(shorten(f"{g.name}/{c.name}") for g in file.groups() for c in g.channels())[:300]
    if found:
        raise InputError(f"{name!r} names {len(found)} channels; write it with its group", file=shown_as)
    raise MissingColumn(f"no channel {name!r}; the channels are {listed}", name, file=shown_as)


def _part(
    channels: dict[str, Any],
    columns: tuple[str, ...],
    form: LoggerForm,
    told: Told,
    first: int,
    size: int,
    shown_as: str,
) -> tuple[Floats, Floats, np.typing.NDArray[np.bool_]]:
    table = [_numbers(channels[name].read_data(first, size), name, shown_as) for name in columns]
    values = np.column_stack(table)
    missing = ~np.isfinite(values)
    values[missing] = 0.0
    if form.clock == "rate":
        return (first + np.arange(size)) / form.rate, values, missing
    raw = channels[form.time_column].read_data(first, size)
    if form.clock == "stamps":
        if not np.issubdtype(raw.dtype, np.datetime64):
            raise InputError("holds no time stamps; say clock = 'seconds'", file=shown_as, key=form.time_column)
        ticks = raw.astype("datetime64[ns]").astype(np.int64)
        if told.start is None:
            told.first_tick = int(ticks[0])
            told.start = ticks[0] / 1e9
        return (ticks - told.first_tick) / 1e9, values, missing
    time = _numbers(raw, form.time_column, shown_as)
    if not np.isfinite(time).all():
        raise InputError("holds times that are not finite", file=shown_as, key=form.time_column)
    if first == 0:
        told.first_time = float(time[0])
    return time - told.first_time, values, missing


def _numbers(raw: Any, name: str, shown_as: str) -> Floats:
    if not (np.issubdtype(raw.dtype, np.floating) or np.issubdtype(raw.dtype, np.integer)):
        raise InputError(f"holds {raw.dtype}; numbers are wanted", file=shown_as, key=name)
    return np.asarray(raw, dtype=np.float64)
