"""How a text file beside the scheme is written."""

from __future__ import annotations

from racewright.scheme.types import Table, choice


class TextFile(Table):
    """How a text file is written."""

    delimiter: str = choice(
        ("auto", ",", ";", "tab"), "what parts the cells", default="auto", because="told by header"
    )
    decimal: str = choice(("point", "comma"), "mark of decimals", default="point", because="as in the example")
    encoding: str = choice(
        ("utf-8", "latin-1", "cp1252", "utf-16"), "encoding of the text", default="utf-8", because="as in the example"
    )
