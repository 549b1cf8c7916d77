"""One run's raw data as Parquet, written part first, then named."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from pathlib import Path

import pyarrow as pa
import pyarrow.parquet as pq

from racewright.records.arrow_cells import arrow_values
from racewright.records.arrow_columns import number_column
from racewright.records.campaign.form import Chunk, by_channel
from racewright.records.campaign.part_file import PartFile

TIME = "time_s"
"""Name of the time column: seconds since the run's first row."""
_ROWS = 1 << 19
"""Rows of a group."""


class RawWriter:
    """Writes chunks to a part file beside the reading; `finish` gives it its name."""

    def __init__(self, path: Path, channels: Sequence[str], units: Sequence[str]) -> None:
        self._file = PartFile(path)
        about = {b"racewright": json.dumps({"what": "raw data as logged", "units": list(units)}).encode()}
        fields = [pa.field(TIME, pa.float64(), nullable=False)]
        fields += [
            pa.field(name, pa.float64(), metadata={b"unit": unit.encode()})
            for name, unit in zip(channels, units, strict=True)
        ]
        self._schema = pa.schema(fields, metadata=about)
        self._writer = pq.ParquetWriter(
            self._file.part,
            self._schema,
            compression="zstd",
            compression_level=1,
            use_dictionary=list(channels),  # readings repeat, times do not
            use_byte_stream_split=[TIME],
            write_statistics=[TIME],
        )
        self._waiting: list[Chunk] = []
        self._rows = 0

    def add(self, chunk: Chunk) -> None:
        """Append rows."""
        self._waiting.append(chunk)
        self._rows += chunk.time.size
        if self._rows >= _ROWS:
            self._flush()

    def _flush(self) -> None:
        if self._rows:
            chunks = self._waiting
            self._file.add(lambda: self._write(chunks))
        self._waiting, self._rows = [], 0

    def _write(self, chunks: Sequence[Chunk]) -> None:
        columns = [pa.chunked_array([number_column(c.time) for c in chunks])]
        for i in range(len(self._schema) - 1):
            columns.append(pa.chunked_array([number_column(c.values[:, i], c.missing[:, i]) for c in chunks]))
        self._writer.write_table(pa.Table.from_arrays(columns, schema=self._schema))

    def finish(self, name: str) -> None:
        """Whole and on disk, under this name."""
        self._flush()
        self._file.path = self._file.path.with_name(name)
        self._file.finish(self._writer.close)

    def drop(self) -> None:
        """Leave nothing behind."""
        self._file.drop(self._writer.close)


def raw_chunks(path: Path, channels: Sequence[str], rows: int = 1 << 17) -> Iterator[Chunk]:
    """Rows of a raw file, in order, `channels` as columns."""
    with pq.ParquetFile(path) as file:
        for batch in file.iter_batches(rows, columns=[TIME, *channels]):
            size = batch.num_rows
            values, missing = by_channel(size, len(channels))
            for i, name in enumerate(channels):
                values[:, i], missing[:, i] = arrow_values(batch.column(name))
            yield Chunk(arrow_values(batch.column(TIME))[0], values, missing)
