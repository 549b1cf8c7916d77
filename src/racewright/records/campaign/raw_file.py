"""One run's raw data as Parquet, written part first, then named."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path

import pyarrow as pa
import pyarrow.parquet as pq

from racewright.records.arrow_cells import arrow_values
from racewright.records.arrow_columns import number_column
from racewright.records.campaign.form import Chunk, by_channel

TIME = "time_s"
"""Name of the time column: seconds since the run's first row."""
_ROWS = 1 << 19
"""Rows of a group."""


class RawWriter:
    """Writes chunks to `NAME.part`; `finish` forces them to disk and gives the file its name."""

    def __init__(self, path: Path, channels: Sequence[str], units: Sequence[str]) -> None:
        self.path = path
        self._part = path.with_name(path.name + ".part")
        about = {b"racewright": json.dumps({"what": "raw data as logged", "units": list(units)}).encode()}
        fields = [pa.field(TIME, pa.float64(), nullable=False)]
        fields += [
            pa.field(name, pa.float64(), metadata={b"unit": unit.encode()})
            for name, unit in zip(channels, units, strict=True)
        ]
        self._schema = pa.schema(fields, metadata=about)
        self._writer = pq.ParquetWriter(
            self._part,
            self._schema,
            compression="zstd",
            compression_level=1,
            use_dictionary=list(channels),  # readings repeat, times do not
            use_byte_stream_split=[TIME],
        )
        self._waiting: list[Chunk] = []
        self._rows = 0
        self._hand = ThreadPoolExecutor(1)
        self._writing: Future[None] | None = None

    def add(self, chunk: Chunk) -> None:
        """Append rows."""
        self._waiting.append(chunk)
        self._rows += chunk.time.size
        if self._rows >= _ROWS:
            self._flush()

    def _flush(self) -> None:
        if not self._rows:
            return
        self._settle()
        self._writing = self._hand.submit(self._write, self._waiting)
        self._waiting, self._rows = [], 0

    def _write(self, chunks: Sequence[Chunk]) -> None:
        columns = [pa.chunked_array([number_column(c.time) for c in chunks])]
        for i in range(len(self._schema) - 1):
            columns.append(pa.chunked_array([number_column(c.values[:, i], c.missing[:, i]) for c in chunks]))
        self._writer.write_table(pa.Table.from_arrays(columns, schema=self._schema))

    def _settle(self) -> None:
        """Wait for the group that is being written beside the reading; its fault comes out here."""
        if self._writing is not None:
            self._writing.result()
            self._writing = None

    def finish(self) -> None:
        """Whole and on disk, under its name."""
        self._flush()
        self._settle()
        self._hand.shutdown()
        self._writer.close()
        handle = os.open(self._part, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
        self._part.rename(self.path)
        sync_folder(self.path.parent)

    def drop(self) -> None:
        """Leave nothing behind."""
        self._hand.shutdown()
        self._writer.close()
        self._part.unlink(missing_ok=True)


def sync_folder(folder: Path) -> None:
    """Force a folder's entries to disk."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def raw_chunks(path: Path, channels: Sequence[str], rows: int = 1 << 17) -> Iterator[Chunk]:
    """Rows of a raw file, in order, `channels` as columns."""
    with pq.ParquetFile(path) as file:
        for batch in file.iter_batches(rows, columns=[TIME, *channels]):
            size = batch.num_rows
            values, missing = by_channel(size, len(channels))
            for i, name in enumerate(channels):
                values[:, i], missing[:, i] = arrow_values(batch.column(name))
            yield Chunk(arrow_values(batch.column(TIME))[0], values, missing)
