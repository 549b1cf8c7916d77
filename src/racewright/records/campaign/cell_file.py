"""A run's cells as Parquet: sums over short stretches of time, from which readings are made again in moments."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pyarrow as pa
import pyarrow.parquet as pq

from racewright.records.campaign.raw_file import sync_folder
from racewright.trials.cell_sums import COLUMNS
from racewright.trials.cells import Cells

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
        columns = {
            "sums": np.concatenate([c.sums.transpose(1, 0, 2) for c in some]).reshape(n, -1),
            "product": np.concatenate([c.product for c in some]),
            "orders": np.concatenate([c.orders for c in some]).reshape(n, -1).view(np.float64),
        }
        arrays = [pa.FixedSizeListArray.from_arrays(pa.array(c.ravel()), c.shape[1]) for c in columns.values()]
        table = pa.Table.from_arrays(arrays, list(columns))
        if self._writer is None:
            self._writer = pq.ParquetWriter(self._part, table.schema, compression="none", use_dictionary=False)
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


def kept_cells(path: Path, channels: int, block_cells: int) -> Iterator[Cells]:
    """Cells of a file in blocks as they were made.

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
        rest: Cells | None = None
        for batch in file.iter_batches(_ROWS):
            n = batch.num_rows
            sums, product, orders = (
                batch.column(name).flatten().to_numpy(zero_copy_only=False).reshape(n, -1)
                for name in ("sums", "product", "orders")
            )
            cells = Cells(
                first,
                sums.reshape(n, channels, COLUMNS).transpose(1, 0, 2),
                product,
                np.ascontiguousarray(orders).view(np.complex128).reshape(n, 2, -1),
            )
            first += n
            cells = cells if rest is None else rest.followed_by(cells)
            at = 0
            while cells.size - at >= block_cells:
                yield cells.part(at, block_cells)
                at += block_cells
            rest = cells.part(at, cells.size - at) if at < cells.size else None
        if rest is not None:
            yield rest
