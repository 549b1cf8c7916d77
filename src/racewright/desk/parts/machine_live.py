"""The machine page of one tab: which answers it holds, which it waits for, and who shows them."""

from __future__ import annotations

import weakref
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from racewright.desk.answer import answer_with
from racewright.desk.keeper.text import changed
from racewright.desk.parts import machine_now as parts
from racewright.desk.parts.machine_drawing import Handle, text_of
from racewright.desk.parts.machine_drawn import drawn
from racewright.desk.parts.machine_quick import quick, settled
from racewright.desk.parts.machine_solid import solid
from racewright.desk.seam import Data
from racewright.errors import InputError

if TYPE_CHECKING:
    from racewright.desk.screen import Screen

Show = Callable[[dict[str, Any]], None]


@dataclass
class Answers:
    """What is known of one version; empty parts are not there yet."""

    digest: str = ""
    point: dict[str, Any] = field(default_factory=dict)
    """Of `quick`, `settled` or `now`: shape, rows, point and what the point stands on."""
    curve: dict[str, Any] = field(default_factory=dict)
    """The page's own answer: with curve, band and loss budget."""
    drawn: dict[str, Any] = field(default_factory=dict)
    water: dict[str, Any] = field(default_factory=dict)
    solid: dict[str, Any] = field(default_factory=dict)
    year: dict[str, Any] = field(default_factory=dict)


class Live:
    """Lanes of answers: the quick one, rows designed anew, the page's own data, then what follows from them.

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
        self.draft, self.saved = Answers(), Answers()
        self.preview: dict[str, Any] = {}
        """Of a handle that is being pulled."""
        self.pulling = False
        """True until the handle is let go; a preview that comes later is too late."""
        self.stale = False
        """True while what stands is of the draft before."""
        self.chosen = ["the saved file", "the draft"]
        """Names of the two versions that are compared."""
        self.followers: dict[str, list[Callable[[], None]]] = {"year": [], "drawn": []}
        """Called when that answer of the draft is there."""
        self._digest = screen.desk.keeper.loaded.digest
        _LIVES[screen] = self
        screen.follow(self._moved)
        self._ask_quick()

    def took(self, data: dict[str, Any]) -> None:
        """The page's own answer is there; the water and the year follow."""
        self.preview, self.stale = {}, False
        self.draft.point, self.draft.curve = {**data, "basis": "computed"}, data
        self._further("water", parts.water, "water")
        self._further("drawn", drawn, "drawn")
        self._further("solid", solid, "solid")
        self._further("year", parts.year, "year")
        self.ask_saved()
        self.shown()

    def pulled(self, handle: Handle, value: float, done: bool) -> None:
        """A handle moved: a preview, or the edit itself once it is let go."""
        key = f"machine.{self.screen.table('machine')}.{handle.key}"
        written = {key: text_of(handle, value)}
        self.pulling = not done
        if done:
            fault = self.screen.edit(written)  # the last preview stands until the draft's quick answer is there
            if fault is not None:
                self.preview = {}
                self.screen.refuse(fault, tuple(written))
            self.shown()
            return
        try:
            text = changed(self.screen.desk.keeper.text, written)
        except InputError:
            return
        self.version("preview", quick, text.encode(), self._previewed, quick=True)

    def version(
        self,
        kind: str,
        function: Data,
        data: bytes,
        show: Show,
        failed: Show | None = None,
        *,
        quick: bool = False,
    ) -> None:
        """Ask a function of another text than the draft; the newest of a kind wins.

        Parameters
        ----------
        kind : str
        function : Data
        data : bytes
            Of the whole scheme.
        show : callable
            Takes the decoded answer.
        failed : callable, optional
            Takes {'message': ...}; a text that cannot be computed shows nothing without it.
        quick : bool
            As in `Screen.further`.
        """
        screen = self.screen
        sent = (function, data, screen.desk.keeper.shown, screen.options)
        told = None if failed is None else lambda fault: failed({"message": fault.message})
        screen.beside(kind, answer_with, *sent, place=self.place, show=show, failed=told, quick=quick)

    def ask_saved(self) -> None:
        """The ghost: the same answers for the file as it was last saved, while the draft differs."""
        keeper = self.screen.desk.keeper
        if not keeper.unsaved:
            self.saved = Answers()
            return
        data = keeper.saved_bytes()
        if data is None:
            return
        self.version("saved now", parts.now, data, lambda found: self._take_saved(point=found, curve=found))
        self.version("saved year", parts.year, data, lambda found: self._take_saved(year=found))

    def _take_saved(self, **found: dict[str, Any]) -> None:
        for name, value in found.items():
            setattr(self.saved, name, value)
        self.shown()

    def _moved(self) -> None:
        """The draft changed, here or elsewhere."""
        digest = self.screen.desk.keeper.loaded.digest
        if digest == self._digest:
            if self.preview and self.screen.fault is not None:  # no answer will come for what was pulled
                self.preview = {}
                self.shown()
            if not self.screen.desk.keeper.unsaved and self.saved.point:
                self.saved = Answers()
                self.shown()
            return
        self._digest, self.stale = digest, True
        self._ask_quick()
        self.shown()

    def _ask_quick(self) -> None:
        with self.place:
            self.screen.further("quick", quick, self._quickly, quick=True)

    def _quickly(self, found: dict[str, Any]) -> None:
        if not self.stale and self.draft.curve:  # the page's own answer was faster
            return
        unknown = found["basis"] == "none" and self.draft.point.get("point")  # to this worker; the last point stands
        self.preview = {}
        self.draft.point = {**self.draft.point, "basis": "before"} if unknown else found
        self.shown()
        if found["basis"] == "before" or unknown:
            self.screen.further("settled", settled, self._settled, quick=True)

    def _settled(self, found: dict[str, Any]) -> None:
        if not self.stale or found["basis"] == "none":
            return
        self.draft.point = found
        self.shown()

    def _previewed(self, found: dict[str, Any]) -> None:
        if self.pulling:
            self.preview = found
            self.shown()

    def _further(self, kind: str, function: Data, name: str) -> None:
        digest = self._digest

        def take(found: dict[str, Any]) -> None:
            if digest == self._digest:
                setattr(self.draft, name, found)
                self.shown()
                for follower in tuple(self.followers.get(name, ())):
                    follower()

        with self.place:
            self.screen.further(kind, function, take)


_LIVES: weakref.WeakKeyDictionary[Any, Live] = weakref.WeakKeyDictionary()


def live_of(screen: Screen) -> Live | None:
    """The live part of a page; None where its case has no machine."""
    return _LIVES.get(screen)
