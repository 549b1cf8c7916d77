"""What the campaign's scheme says of the channel and of each run: section, span, tares, as fields with units."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from nicegui import ui

from racewright.desk import look

if TYPE_CHECKING:
    from racewright.desk.screen import Screen

CHANNEL = (
    ("width", "channel width"),
    ("depth", "water depth"),
    ("axis_height", "axis above the floor"),
    ("surface", "surface"),
    ("temperature", "water temperature"),
)
"""Keys of the rig that a campaign is never without, and what they are called."""
RUN = (
    ("begin", "run begins at"),
    ("end", "run ends at"),
    ("width", "channel width, this run"),
    ("depth", "water depth, this run"),
    ("one_load", "one load throughout"),
    ("cleaned", "cleaned at"),
    ("source", "parts and remarks"),
)
TARES = ("before", "after")
"""Tares that a run is asked for where it has none of these names."""


def run_fields(screen: Screen) -> Runs:
    """Build the test section's fields, then those of one run."""
    trials = screen.table("trials")
    with look.section("Test section"):
        look.note("Of the whole campaign; a run with another section says so below.", "soft")
        with look.fields():
            for key, label in CHANNEL:
                look.field(screen, f"trials.{trials}.rig.{key}", label)
    with look.section("Runs: span, tares, section"):
        return Runs(screen)


def tares_of(run: Any) -> tuple[str, ...]:
    """Names of a run's tares, those that are asked for anyway first."""
    return (*TARES, *sorted(name for name in run.tares if name not in TARES))


class Runs:
    """The fields of one run, which is chosen.

    Parameters
    ----------
    screen : Screen
    """

    def __init__(self, screen: Screen) -> None:
        self._screen = screen
        self._shown: tuple[str, tuple[str, ...]] = ("", ())
        self._choice = ui.select([], label="run").props("outlined dense stack-label").classes("trial-run")
        self._choice.on_value_change(lambda _event: self._build())
        self._place = ui.element("div").classes("trial-run-fields")
        self._follow()
        screen.follow(self._follow)

    def choose(self, run: str) -> None:
        """Show a run's fields."""
        self._follow()
        self._choice.value = run

    def _table(self) -> Any:
        return self._screen.desk.keeper.loaded.scheme.trials.get(self._screen.table("trials"))

    def _follow(self) -> None:
        """Runs to choose, when the draft has others."""
        table = self._table()
        names = [] if table is None else list(table.runs)
        if names != self._choice.options:
            kept = self._choice.value if self._choice.value in names else next(iter(names), None)
            self._choice.set_options(names, value=kept)
        self._build()

    def _build(self) -> None:
        table, name = self._table(), str(self._choice.value or "")
        run = None if table is None else table.runs.get(name)
        tares = () if run is None else tares_of(run)
        if self._shown == (name, tares):
            return
        self._shown = (name, tares)
        self._place.clear()
        with self._place:
            if run is None:
                look.note("No run yet: drop a logger's file above.", "soft")
                return
            base = f"trials.{self._screen.table('trials')}.runs.{quoted(name)}"
            with look.fields():
                for key, label in RUN:
                    look.field(self._screen, f"{base}.{key}", label)
            look.words("h3", "Tares: still water, rotor standing; times after the run's first row")
            with look.fields():
                for tare in tares:
                    look.span_fields(self._screen, f"{base}.tares.{quoted(tare)}", f"tare {tare.replace('_', ' ')}")


def quoted(name: str) -> str:
    """A name as a part of a dotted path: in quotes where it has a dot."""
    return f'"{name}"' if "." in name else name
