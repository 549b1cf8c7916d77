"""What views are built with: `from racewright.desk import look`, then `look.chart(...)`.

The kit is loaded when the first of these is used, so that workers, which only compute, never load it.
"""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from racewright.desk.look.blocks import columns, empty, knobs, note, section, words_of
    from racewright.desk.look.cautioned import cautions, sentences_of
    from racewright.desk.look.charts import Line, chart
    from racewright.desk.look.entries import field, fields, refused
    from racewright.desk.look.lettering import button, link, words
    from racewright.desk.look.numbers import against_saved, banded, figure, figures
    from racewright.desk.look.pictures import drawing, pictured
    from racewright.desk.look.remarks import warnings
    from racewright.desk.look.spans import span_fields
    from racewright.desk.look.tables import Column, table

_WHERE = {
    "Line": "charts",
    "cautions": "cautioned",
    "sentences_of": "cautioned",
    "chart": "charts",
    "drawing": "pictures",
    "pictured": "pictures",
    "field": "entries",
    "fields": "entries",
    "refused": "entries",
    "against_saved": "numbers",
    "banded": "numbers",
    "figure": "numbers",
    "figures": "numbers",
    "columns": "blocks",
    "empty": "blocks",
    "note": "blocks",
    "knobs": "blocks",
    "section": "blocks",
    "span_fields": "spans",
    "words_of": "blocks",
    "Column": "tables",
    "table": "tables",
    "warnings": "remarks",
    "button": "lettering",
    "link": "lettering",
    "words": "lettering",
}

__all__ = [
    "Column",
    "Line",
    "against_saved",
    "banded",
    "button",
    "cautions",
    "chart",
    "columns",
    "drawing",
    "empty",
    "field",
    "fields",
    "figure",
    "figures",
    "knobs",
    "link",
    "note",
    "pictured",
    "refused",
    "section",
    "sentences_of",
    "span_fields",
    "table",
    "warnings",
    "words",
    "words_of",
]


if not TYPE_CHECKING:  # else every name would pass

    def __getattr__(name: str) -> Any:
        if name not in _WHERE:
            raise AttributeError(name)
        return getattr(importlib.import_module(f"{__name__}.{_WHERE[name]}"), name)
