"""From a data function to JSON, inside a worker, by the command line's own encoder."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from racewright import __version__
from racewright.cli.encode import to_json
from racewright.desk.keeper.read import load_text
from racewright.desk.seam import Asked, Data, Drawing, page_named
from racewright.ledger.chain import scheme_hash
from racewright.ledger.inputs import case_of
from racewright.scheme import LoadedScheme
from racewright.tick import Tick, silent


@dataclass(frozen=True)
class Answer:
    """What a page shows.

    Attributes
    ----------
    text : str
        JSON: the data, `units` for every number, `provenance`.
    drawings : mapping of str to (str, str)
        SVG for the page by name: wide and narrow.
    """

    text: str
    drawings: Mapping[str, tuple[str, str]] = field(default_factory=dict)


def answer_page(name: str, data: bytes, path: Path, options: Any, tick: Tick = silent) -> Answer:
    """The answer of a page for a draft.

    Parameters
    ----------
    name : str
        Of the page.
    data : bytes
        The draft.
    path : Path
        Where its file lies.
    options : Options
    tick : Tick
    """
    page = page_named(name)
    asked = Asked(load_text(data, path), options, tick)
    return Answer(encoded(name, page.data, asked), inlined(name, page.drawings(asked)) if page.drawings else {})


def answer_with(function: Data, data: bytes, path: Path, options: Any, tick: Tick = silent) -> Answer:
    """The answer of a page's further function, one that can be imported."""
    asked = Asked(load_text(data, path), options, tick)
    return Answer(encoded(function.__name__, function, asked))


def encoded(what: str, function: Data, asked: Asked) -> str:
    """JSON of a data function, as the command line would print it."""
    provenance = {
        "version": __version__,
        "command": f"desk {what}",
        "scheme_sha256": scheme_hash(asked.loaded),
    }
    return to_json(function(asked), provenance, currency_of(asked.loaded, asked.options.case))


def currency_of(loaded: LoadedScheme, case: str | None) -> str:
    """The currency that a case counts in; '' without prices."""
    table = loaded.scheme.community.get(case_of(loaded, case)[1].community or "")
    diesel = getattr(table, "diesel", None)
    return str(getattr(getattr(diesel, "fuel_price", None), "currency", "") or "")


def inlined(name: str, drawn: Mapping[str, Drawing]) -> dict[str, tuple[str, str]]:
    """SVG to stand within a page, wide and narrow, by the drawings' names; `name` keeps their parts apart."""
    from racewright.dossier.figures.save import inline

    return {
        key: (inline(d.wide, f"{name}-w-{key}", "wide"), inline(d.narrow, f"{name}-n-{key}", "narrow"))
        for key, d in drawn.items()
    }
