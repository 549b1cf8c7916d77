"""A logger file of any known format."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from racewright.records.campaign.form import Reading
from racewright.records.campaign.logger_form import LoggerForm


def read_logger(path: Path, columns: Sequence[str], form: LoggerForm, shown_as: str) -> Reading:
    """Read the wanted columns; the ending says the format: .parquet, .tdms, anything else is text.

    Parameters, answer and errors as for `logger_csv.read_logger_csv`.
    """
    ending = path.suffix.lower()
    if ending in (".parquet", ".pq"):
        from racewright.records.campaign.logger_parquet import read_logger_parquet

        return read_logger_parquet(path, columns, form, shown_as)
    if ending == ".tdms":
        from racewright.records.campaign.logger_tdms import read_logger_tdms

        return read_logger_tdms(path, columns, form, shown_as)
    from racewright.records.campaign.logger_csv import read_logger_csv

    return read_logger_csv(path, columns, form, shown_as)
