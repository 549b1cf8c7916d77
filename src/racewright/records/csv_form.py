"""How a CSV file is written: delimiter, decimal mark, encoding, and whether its rows are in order of time."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

from racewright.errors import InputError

Delimiter = Literal["auto", ",", ";", "tab"]
Decimal = Literal["point", "comma"]
Encoding = Literal["utf-8", "latin-1", "cp1252", "utf-16"]
Order = Literal["rising", "any"]


@dataclass(frozen=True)
class CsvForm:
    """Form of a delimited text file.

    Attributes
    ----------
    delimiter : {'auto', ',', ';', 'tab'}
        Between cells; 'auto' tells it from the header.
    decimal : {'point', 'comma'}
        Mark of decimals; with 'comma' the delimiter cannot be a comma.
    encoding : {'utf-8', 'latin-1', 'cp1252', 'utf-16'}
        UTF-8 may start with a byte-order mark, UTF-16 must.
    order : {'rising', 'any'}
        Of the stamps of a record: 'rising' refuses one that repeats or goes back; 'any' sorts the rows and
        keeps one of two equal ones, and counts what it did. Tables have no stamps and take no notice.

    Raises
    ------
    InputError
        A value that is none of these, or decimal commas between commas.
    """

    delimiter: Delimiter = "auto"
    decimal: Decimal = "point"
    encoding: Encoding = "utf-8"
    order: Order = "rising"

    def __post_init__(self) -> None:
        for key, kind in (("delimiter", Delimiter), ("decimal", Decimal), ("encoding", Encoding), ("order", Order)):
            found, known = getattr(self, key), get_args(kind)
            if found not in known:
                raise InputError(f"{str(found)[:60]!r} is none of {', '.join(map(repr, known))}", key=key)
        if self.decimal == "comma" and self.delimiter == ",":
            raise InputError(
                "with decimal commas the cells cannot be parted by ','; use ';' or 'tab'", key="delimiter"
            )

    @property
    def delimiters(self) -> tuple[str, ...]:
        """The characters that may part cells, the likeliest first."""
        if self.delimiter == "auto":
            return (",", ";", "\t") if self.decimal == "point" else (";", "\t")
        return ("\t",) if self.delimiter == "tab" else (self.delimiter,)


PLAIN = CsvForm()
"""UTF-8, decimal points, the delimiter told from the header, rows in order of time."""
