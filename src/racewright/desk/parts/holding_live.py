"""The holding page of one tab: which rest it shows while the draft changes, and who draws it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from racewright.desk.answer import answer_with
from racewright.desk.parts.holding_drawing import By, Spot, edits, mirror_of, spots_in
from racewright.desk.parts.holding_rest import moved, rest
from racewright.desk.work.inside import Job

if TYPE_CHECKING:
    from racewright.desk.screen import Screen


class Live:
    """The rest of the draft, or of one that is being pulled; the newest request wins.

    Parameters
    ----------
    screen : Screen
    place : element
        What is asked for is shown within it.
    shown : callable
        Called after every answer.
    """

    def __init__(self, screen: Screen, place: Any, shown: Callable[[], None]) -> None:
        self.screen, self.place, self.shown = screen, place, shown
        self.answer: dict[str, Any] = {}
        self.stale = False
        self.preview = False
        """Whether the answer is of something that is being pulled."""
        self.mirror = True
        self.said = ""
        """Why there is no answer, '' where there is one."""
        self._asked: dict[str, Any] = {}
        self._digest = screen.desk.keeper.loaded.digest
        screen.follow(self._moved)
        self._ask()

    @property
    def base(self) -> str:
        """Dotted path of the holding's table."""
        return f"holding.{self.screen.table('holding')}"

    def spots(self) -> tuple[Spot, ...]:
        """Anchors and fairleads of the draft."""
        table = self.screen.desk.keeper.loaded.scheme.holding.get(self.screen.table("holding"))
        return () if table is None else spots_in(table)

    def paired(self) -> bool:
        """Whether any spot has a mirror image."""
        spots = self.spots()
        return any(mirror_of(spot, spots) is not None for spot in spots)

    def asked(self, wanted: dict[str, Any]) -> None:
        """Another load state or stream speed."""
        self._asked |= wanted
        self._ask()

    def mirrored(self, on: bool) -> None:
        """Whether mirror images move too."""
        self.mirror = on
        self.shown()

    def moved(self, kind: str, name: str, by: By, done: bool) -> None:
        """A spot was pulled: a preview, or the edit itself once it is let go."""
        spots = self.spots()
        if not any((s.kind, s.name) == (kind, name) for s in spots):
            return
        written = edits(name, kind, by, spots, self.base, mirror=self.mirror)
        if not written:
            self._ask()
            return
        if done:
            fault = self.screen.edit(written)
            if fault is not None:
                self.screen.refuse(fault, tuple(written))
                self._ask()
            return
        keeper = self.screen.desk.keeper
        self._go(True, moved, keeper.text, written, keeper.shown, self._options())

    def _options(self) -> Any:
        return self.screen.options.model_copy(update=self._asked)

    def _ask(self) -> None:
        keeper = self.screen.desk.keeper
        self._go(False, answer_with, rest, keeper.data, keeper.shown, self._options())

    def _go(self, preview: bool, job: Job, *sent: Any) -> None:
        """Ask a worker; what was asked before is not wanted any more."""
        self.screen.beside(
            "rest",
            job,
            *sent,
            place=self.place,
            show=lambda found: self._take(found, preview),
            failed=lambda fault: self._failed(fault.message),
            quick=True,
        )

    def _take(self, found: dict[str, Any], preview: bool) -> None:
        self.answer, self.preview, self.stale, self.said = found, preview, False, ""
        self.shown()

    def _failed(self, message: str) -> None:
        self.said, self.stale = message, True
        self.shown()

    def _moved(self) -> None:
        """The draft changed, here or elsewhere."""
        digest = self.screen.desk.keeper.loaded.digest
        if digest != self._digest:
            self._digest, self.stale = digest, True
            self._ask()
            self.shown()

    def settled(self) -> None:
        """The page's own answer is there: the load states of the draft are known now."""
        if self.answer.get("basis") != "computed":
            self._ask()
