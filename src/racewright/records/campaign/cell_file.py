"""A run's cells as Parquet: sums over short stretches of time, from which readings are made again in moments."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

import numpy as np
import pyarrow as pa
import pyarrow.parquet as pq
from numpy.typing import NDArray

from racewright.records.campaign.raw_file import sync_folder
from racewright.trials.cell_sums import COLUMNS
from racewright.trials.cells import Cells

_COLUMNS = ("sums", "product", "orders")
_ROWS = 4096
"""Cells of a group."""


class CellWriter:
    """Writes cells to `NAME.part`; `finish` forces them to disk and gives the file its name."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._part = path.with_name(path.name + ".part")
        self._writer: pq.ParquetWriter | None = None
        self._waiting: list[Cells] = []
        self._size = 0

    def add(self, cells: Cells) -> None:
        """Append cells, each run of them following the one before."""
        self._waiting.append(cells)
        self._size += cells.size
        if self._size >= _ROWS:
            self._flush()

    def _flush(self) -> None:
        some, n = self._waiting, self._size
        self._waiting, self._size = [], 0
        if not n:
            return
        schema = _schema({name: getattr(some[0], name) for name in _COLUMNS})
        columns = [pa.chunked_array([_packed(getattr(one, name)) for one in some]) for name in _COLUMNS]
        table = pa.Table.from_arrays(columns, schema=schema)
        if self._writer is None:
            self._writer = pq.ParquetWriter(
                self._part, table.schema, compression="none", use_dictionary=False, write_statistics=False
            )
        self._writer.write_table(table)

    def finish(self) -> bool:
        """Whole and on disk, under its name; False where there was no cell and no file is made."""
        self._flush()
        if self._writer is None:
            return False
        self._writer.close()
        handle = os.open(self._part, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
        self._part.rename(self.path)
        sync_folder(self.path.parent)
        return True

    def drop(self) -> None:
        """Leave nothing behind."""
        if self._writer is not None:
            self._writer.close()
        self._part.unlink(missing_ok=True)


def _schema(rows: Mapping[str, np.ndarray]) -> pa.Schema:
    """One field of bytes for each array."""
    return pa.schema([pa.field(name, pa.binary(some[0].nbytes), nullable=False) for name, some in rows.items()])


def _packed(rows: np.ndarray) -> pa.Array:
    """Rows of numbers as fixed lengths of bytes: a list type would be taken apart and put together one by one."""
    whole = pa.py_buffer(np.ascontiguousarray(rows))
    return pa.Array.from_buffers(pa.binary(rows[0].nbytes), rows.shape[0], [None, whole])


def _unpacked(column: pa.Array, shape: Sequence[int]) -> NDArray[np.float64]:
    size = column.type.byte_width // 8
    numbers = np.frombuffer(column.buffers()[1], np.float64, size * len(column), 8 * size * column.offset)
    return numbers.copy().reshape(len(column), *shape)


def kept_cells(path: Path, channels: int, block_cells: int) -> Iterator[Cells]:
    """Cells of a file in runs of many blocks; only the last run may end within one.

    Parameters
    ----------
    path : Path
    channels : int
        How many channels the cells have [-].
    block_cells : int
        Cells of a block [-].
    """
    first = 0
    with pq.ParquetFile(path) as file:
        for batch in file.iter_batches(max(_ROWS // block_cells, 1) * block_cells):
            sums = _unpacked(batch.column("sums"), (channels, COLUMNS))
            orders = _unpacked(batch.column("orders"), (2, -1)).view(np.complex128)
            yield Cells(first, sums, _unpacked(batch.column("product"), (2,)), orders)
            first += batch.num_rows
