"""Which key of a campaign's tables names a column of its logger's files. Loads no numerical library."""

from __future__ import annotations

from pathlib import Path

from racewright.errors import InputError, MissingColumn, UnitClash
from racewright.scheme import LoadedScheme


def check_columns(loaded: LoadedScheme, campaign: str) -> None:
    """Refuse two channels that read one column, or one that reads the clock's.

    Raises
    ------
    InputError
        At the later channel's `column`.
    """
    table, at = loaded.scheme.trials[campaign], ("trials", campaign)
    taken: dict[str, str] = {}
    if table.logger.clock != "rate":
        taken[table.logger.time_column] = "the logger's clock"
    for name, channel in table.channels.items():
        if channel.column in taken:
            message = (
                f"{channel.column!r} is the column of {taken[channel.column]} already; each channel reads a column of"
                " its own"
            )
            raise loaded.error(message, *at, "channels", name, "column")
        taken[channel.column] = f"channel {name!r}"


def at_mapping(loaded: LoadedScheme, campaign: str, fault: InputError) -> InputError:
    """A fault of a logger file's columns or units, pointed at the key that names them; any other as it is.

    Parameters
    ----------
    loaded : LoadedScheme
    campaign : str
        Name of the [trials.*] table.
    fault : InputError
    """
    if not isinstance(fault, MissingColumn | UnitClash):
        return fault
    line = "" if fault.line is None else f", line {fault.line}"
    message = f"{Path(fault.file or '').name}{line}: {fault.message}"
    table, at = loaded.scheme.trials[campaign], ("trials", campaign)
    for name, channel in table.channels.items():
        if channel.column == fault.column:
            key = "unit" if isinstance(fault, UnitClash) else "column"
            return loaded.error(message, *at, "channels", name, key)
    return loaded.error(message, *at, "logger", "time_column")
