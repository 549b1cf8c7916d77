"""A run's cells as Parquet: sums over short stretches of time, from which readings are made again in moments."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

import numpy as np
import pyarrow as pa
import pyarrow.parquet as pq
from numpy.typing import NDArray

from racewright.records.campaign.part_file import PartFile
from racewright.trials.cell_sums import COLUMNS
from racewright.trials.cells import Cells

_COLUMNS = ("sums", "product", "orders")
_ROWS = 4096
"""Cells of a group."""


class CellWriter:
    """Writes cells to a part file beside their making; `finish` gives it its name."""

    def __init__(self, path: Path) -> None:
        self._file = PartFile(path)
        self._writer: pq.ParquetWriter | None = None
        self._waiting: list[Cells] = []
        self._size, self._any = 0, False

    def add(self, cells: Cells) -> None:
        """Append cells, each run of them following the one before."""
        self._waiting.append(cells)
        self._size += cells.size
        self._any = True
        if self._size >= _ROWS:
            self._flush()

    def _flush(self) -> None:
        if self._size:
            some = self._waiting
            self._file.add(lambda: self._write(some))
        self._waiting, self._size = [], 0

    def _write(self, some: Sequence[Cells]) -> None:
        schema = _schema({name: getattr(some[0], name) for name in _COLUMNS})
        columns = [pa.chunked_array([_packed(getattr(one, name)) for one in some]) for name in _COLUMNS]
        if self._writer is None:
            self._writer = pq.ParquetWriter(
                self._file.part, schema, compression="none", use_dictionary=False, write_statistics=False
            )
        self._writer.write_table(pa.Table.from_arrays(columns, schema=schema))

    def finish(self, name: str) -> bool:
        """Whole and on disk, under this name; False where there was no cell and no file is made."""
        self._flush()
        if not self._any:
            self._file.drop(self._close)
            return False
        self._file.path = self._file.path.with_name(name)
        self._file.finish(self._close)
        return True

    def drop(self) -> None:
        """Leave nothing behind."""
        self._file.drop(self._close)

    def _close(self) -> None:
        if self._writer is not None:
            self._writer.close()


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
