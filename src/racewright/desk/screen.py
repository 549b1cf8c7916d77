"""One page as one tab has it open: what a view reads, edits and asks for."""

from __future__ import annotations

import json
import logging
from collections.abc import Awaitable, Callable, Collection, Coroutine, Mapping
from typing import Any

from nicegui import background_tasks, ui

from racewright.desk.answer import Answer, currency_of
from racewright.desk.desk import Desk
from racewright.desk.keeper.fault import Fault, fault_of
from racewright.desk.keeper.keys import Value, parts_of
from racewright.desk.seam import Data, Options, Page
from racewright.desk.waiting import Pending, Waiting
from racewright.desk.work.inside import Job
from racewright.errors import Cancelled, RacewrightError

LOG = logging.getLogger("racewright.desk")


class Screen:
    """What `view` and `controls` of a page get.

    Attributes
    ----------
    desk : Desk
    page : Page
    options : Options
        What is asked now; `ask` changes it.
    tab : str
        This tab, for newest wins.
    data : dict
        The newest answer, decoded; empty before the first.
    drawings : mapping of str to (str, str)
        Of the newest answer.
    fault : Fault or None
        What the draft could not be computed for.
    pending : Pending
        What the page waits for.
    """

    def __init__(self, desk: Desk, page: Page, options: Options, tab: str) -> None:
        self.desk = desk
        self.page = page
        self.options = options
        self.tab = tab
        self.data: dict[str, Any] = {}
        self.drawings: Mapping[str, tuple[str, str]] = {}
        self.fault: Fault | None = None
        self._followers: list[Callable[[], None]] = []
        self._refused: dict[str, str] = {}
        self._says: Callable[[Fault | None], None] = lambda _fault: None
        self._body: Any = None
        self._waiting: Waiting | None = None
        self._digest = desk.keeper.loaded.digest
        self.pending = Pending()
        self.closed = False
        self._ends: list[Callable[[], None]] = []

    @property
    def case(self) -> str:
        """Name of the case; '' in a scheme without one."""
        return self.options.case or next(iter(self.desk.keeper.loaded.scheme.case), "")

    @property
    def currency(self) -> str:
        """That the case counts in; '' without prices."""
        return currency_of(self.desk.keeper.loaded, self.options.case)

    def table(self, role: str) -> str:
        """Name of the table that the case has in a role, like 'machine'; '' where it has none."""
        found = self.desk.keeper.loaded.scheme.case.get(self.case)
        return str(getattr(found, role, None) or "") if found is not None else ""

    def written(self, key: str) -> str:
        """What the draft has at a key, as one would type it; '' where it has nothing."""
        found: Any = self.desk.keeper.loaded.raw
        for part in parts_of(key):
            found = found.get(part) if isinstance(found, dict) else None
        if found is None or isinstance(found, dict):
            return ""
        if isinstance(found, bool):
            return str(found).lower()
        return ", ".join(f"{v:g}" for v in found) if isinstance(found, list) else str(found)

    def edit(self, changes: Mapping[str, Value]) -> Fault | None:
        """Change keys of the draft, all or none; the fault that refused it, or None.

        Every tab follows at once; the data are asked for anew.
        """
        try:
            self.desk.keeper.edit(changes, self.desk.keeper.revision)
        except RacewrightError as error:
            return fault_of(error)
        self.refuse(None)
        return None

    def refuse(self, fault: Fault | None, keys: Collection[str] = ()) -> None:
        """An edit that was made without a field was refused: its fault stands beside the field of the value.

        Parameters
        ----------
        fault : Fault or None
            None: what was refused before is settled.
        keys : collection of str
            Keys that were to be changed; the first stands in where the fault's own is none of them.
        """
        before = self._refused
        self._refused = {}
        if fault is not None:
            own = fault.key in keys or not fault.key
            at = fault.key if fault.key in keys else next(iter(keys), fault.key)
            self._refused[at] = fault.message if own else f"{fault.key}: {fault.message}"
        if before != self._refused:
            self._followed()

    def refusal(self, key: str) -> str:
        """Why a value that was pulled was refused; '' where it was not."""
        return self._refused.get(key, "")

    @property
    def refusals(self) -> Mapping[str, str]:
        """What was refused last, by key; empty where nothing was."""
        return self._refused

    def ask(self, **options: Any) -> None:
        """Ask for the page's data with other options; what stands stays until the answer is there."""
        self.options = self.options.model_copy(update=options)
        self.refresh()

    def further(
        self,
        kind: str,
        function: Data,
        show: Callable[[dict[str, Any]], None],
        *,
        quick: bool = False,
        **options: Any,
    ) -> None:
        """Ask a worker for something else than the page's data; the newest of a kind wins.

        Parameters
        ----------
        kind : str
            Requests of one kind replace each other.
        function : Data
            One that can be imported, from an `Asked` to a dict.
        show : callable
            Called with the decoded answer, in the place on the page where `further` was called.
        quick : bool
            It takes no longer than a blink and goes before all that does.
        **options
            Laid over the page's options.
        """
        asked, place = self.options.model_copy(update=options), ui.context.slot.parent
        self._go(lambda: self.desk.further(self.tab, kind, function, asked, quick=quick), place, show, self._say)

    def beside(
        self,
        kind: str,
        job: Job,
        *sent: Any,
        place: Any,
        show: Callable[[dict[str, Any]], None],
        failed: Callable[[Fault], None] | None = None,
        quick: bool = False,
    ) -> None:
        """Send a worker a job that gives an `Answer`; the newest of a kind in this tab wins.

        Parameters
        ----------
        kind : str
            Requests of one kind replace each other.
        job : callable
            One that can be imported.
        *sent
            What it takes.
        place : element
            What is shown is shown within it.
        show : callable
            Called with the decoded answer, unless the tab was closed.
        failed : callable, optional
            Called with the fault; without it a request that fails shows nothing.
        quick : bool
            As in `further`.
        """

        self._go(lambda: self.desk.newest.ask((self.tab, kind), job, *sent, quick=quick), place, show, failed)

    def _go(
        self,
        ask: Callable[[], Awaitable[Answer]],
        place: Any,
        show: Callable[[dict[str, Any]], None],
        failed: Callable[[Fault], None] | None,
    ) -> None:
        async def go() -> None:
            try:
                answer = await ask()
            except Cancelled:
                return
            except RacewrightError as error:
                if failed is not None and not self.closed:
                    with place:
                        failed(fault_of(error))
                return
            if not self.closed:
                with place:
                    show(json.loads(answer.text))

        self.run(go())

    def run(self, work: Coroutine[Any, Any, None]) -> None:
        """Let it run beside; the page is busy until it has ended."""

        async def through() -> None:
            try:
                await work
            finally:
                self.pending.end()

        self.pending.begin()
        background_tasks.create(through())

    def follow(self, follower: Callable[[], None]) -> None:
        """Call something whenever the draft or its faults change, while this page is open."""
        self._followers.append(follower)

    def on_leave(self, end: Callable[[], None]) -> None:
        """Call something when the tab is closed."""
        self._ends.append(end)

    # -- for the frame of the page ------------------------------------------------------------------------

    def fill(self, body: Any, waiting: Waiting, says: Callable[[Fault | None], None]) -> None:
        """Where the view goes, what shows that it is awaited, and who says what went wrong."""
        self._body, self._waiting, self._says = body, waiting, says
        held = self.desk.held(self.page, self.options)
        if held is not None:
            self._show(held)
        else:
            self.refresh()

    def refresh(self) -> None:
        """Ask for the page's data."""
        self.run(self._refresh())

    def leave(self) -> None:
        """The tab was closed."""
        self.closed = True
        self.pending.leave()
        for end in self._ends:
            end()

    def moved(self) -> None:
        """The keeper has news."""
        if self.closed:
            return
        if self._digest != self.desk.keeper.loaded.digest:
            self._digest = self.desk.keeper.loaded.digest
            self._refused = {}
            self.refresh()
        self._followed()

    def _followed(self) -> None:
        for follower in tuple(self._followers):
            follower()

    async def _refresh(self) -> None:
        waiting = self._waiting
        if waiting is not None:
            waiting.begin(lambda: self.desk.newest.fraction((self.tab, self.page.name)))
        try:
            answer = await self.desk.page(self.tab, self.page, self.options)
        except Cancelled:
            return
        except RacewrightError as error:
            self._say(fault_of(error))
        except Exception as error:  # noqa: BLE001  (a fault of ours: told, logged, and the page goes on)
            self._internal(error)
        else:
            self._show(answer)
        if waiting is not None:
            waiting.end()

    def _say(self, fault: Fault | None) -> None:
        if self.closed:
            return
        self.fault = fault
        self._says(fault)
        self._followed()

    def _internal(self, error: Exception) -> None:
        LOG.error("page %s: %s", self.page.name, type(error).__name__, exc_info=error)
        self._say(Fault(f"internal fault ({type(error).__name__}); please report it with the version"))

    def _show(self, answer: Answer) -> None:
        if self.closed:
            return
        self.data, self.drawings = json.loads(answer.text), answer.drawings
        self._say(None)
        self._body.clear()
        with self._body:
            try:
                self.page.view(self, self.data)
            except Exception as error:  # noqa: BLE001  (as above)
                self._internal(error)
