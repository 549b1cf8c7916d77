"""The seam of pages: what a page is, what its data function may look at, and which pages there are.

A page is one file in `desk/pages/` with a `PAGE`. Nothing else is touched to add one.
"""

from __future__ import annotations

import functools
import importlib
import pkgutil
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from pydantic import BaseModel, ConfigDict

from racewright.cli.field_units import FIELD_UNITS
from racewright.desk import memory
from racewright.ledger.findings import Findings
from racewright.ledger.graph import evaluate
from racewright.ledger.inputs import case_of
from racewright.scheme import LoadedScheme
from racewright.tick import Tick, silent

if TYPE_CHECKING:
    from racewright.desk.screen import Screen


class Options(BaseModel):
    """What may be asked of a page by its address and by the API; a page with more of them makes a subclass."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    case: str | None = None
    """Which [case.*] table; the first if left out."""


@dataclass(frozen=True)
class Asked:
    """All that a data function looks at; it lives in a worker process for one answer.

    Attributes
    ----------
    loaded : LoadedScheme
        The draft, read and checked.
    options : Options
        Of the page's own class.
    tick : Tick
        Call it with the fraction done; it raises `Cancelled` when a newer request came.
    """

    loaded: LoadedScheme
    options: Any
    tick: Tick = silent

    @property
    def case(self) -> str:
        """Name of the case; '' in a scheme without one."""
        return case_of(self.loaded, self.options.case)[0]

    def findings(self) -> Findings:
        """Everything that `racewright report` computes; from the cache where it can."""
        return memory.findings(self.loaded, self.options.case, self.tick)

    def values(self, *nodes: str) -> dict[str, Any]:
        """Values of ledger nodes by name, and of those that they read; None where a node does not apply."""
        name, case = case_of(self.loaded, self.options.case)
        return evaluate(self.loaded, name, case, wanted=nodes, store=memory.store(), tick=self.tick)


Data = Callable[[Asked], dict[str, Any]]
"""A pure function that gives dataclasses and plain values, as `cli.encode.to_json` takes them."""


@dataclass(frozen=True)
class Drawing:
    """A drawing as SVG, for a wide screen and for a phone."""

    wide: bytes
    narrow: bytes


@dataclass(frozen=True)
class Page:
    """One page of the desk.

    Attributes
    ----------
    name : str
        Last part of its address, and of its JSON twin under /api: small letters and '_'.
    title : str
        Over the page, in trade words.
    short : str
        At its station of the stream.
    order : int
        Its place in the flow of the job: 0 standing, 10 place, 20 machine, 30 trials, 40 holding,
        50 neighbours, 60 supply, 70 dossier.
    data : Data
        Runs in a worker; its numbers are those of the JSON twin.
    view : callable
        (screen, data) builds what shows the data, as decoded from JSON; called again for every newer answer.
    drawings : callable, optional
        (asked) gives SVG drawings by name, made in the worker; `screen.drawing(name, alt)` shows one.
    controls : callable, optional
        (screen) builds what stays on the screen while answers come and go: fields, sliders, a drop area.
    options : type of Options
        What may be asked of the page.
    units : mapping, optional
        SI unit of every numeric field of the page's own dataclasses, by class name, as in `cli.field_units`.
    """

    name: str
    title: str
    short: str
    order: int
    data: Data
    view: Callable[[Screen, dict[str, Any]], None]
    drawings: Callable[[Asked], Mapping[str, Drawing]] | None = None
    controls: Callable[[Screen], None] | None = None
    options: type[Options] = Options
    units: Mapping[str, Mapping[str, str]] = field(default_factory=dict)

    @property
    def address(self) -> str:
        """Path of the page: the first of the flow is the entry."""
        return "/" if self.order == 0 else f"/{self.name}"


TAKEN = frozenset({"api", "look", "scheme", "openapi", "static", "status"})
"""Names that a page cannot have: their addresses are the desk's own."""


@functools.cache
def all_pages() -> tuple[Page, ...]:
    """Every page of the package `desk.pages`, in the order of the flow.

    Raises
    ------
    ValueError
        Two pages with one name or one place, a name that is none, or two classes of one name.
    """
    package = importlib.import_module("racewright.desk.pages")
    modules = [
        importlib.import_module(f"{package.__name__}.{m.name}") for m in pkgutil.iter_modules(package.__path__)
    ]
    pages = sorted((m.PAGE for m in modules if hasattr(m, "PAGE")), key=lambda page: page.order)
    for page in pages:
        if not re.fullmatch(r"[a-z][a-z0-9_]*", page.name) or page.name in TAKEN:
            raise ValueError(f"page {page.name!r}: a page needs a name of small letters that is not taken")
    if len({p.name for p in pages}) < len(pages) or len({p.order for p in pages}) < len(pages):
        raise ValueError("two pages have the same name, or the same place in the flow")
    for page in pages:
        _add_units(page)
    return tuple(pages)


def _add_units(page: Page) -> None:
    """Let the encoder know the units of a page's own dataclasses."""
    for name, units in page.units.items():
        if FIELD_UNITS.setdefault(name, dict(units)) != dict(units):
            raise ValueError(f"page {page.name!r}: there is a class {name} with other units already")


def page_named(name: str) -> Page:
    """The page of a name; KeyError without one."""
    return {page.name: page for page in all_pages()}[name]
