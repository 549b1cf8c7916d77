"""The desk of one scheme: keeper, workers and what was answered last."""

from __future__ import annotations

from collections import OrderedDict
from typing import Any

from racewright.desk import memory
from racewright.desk.answer import Answer, answer_page, answer_with
from racewright.desk.keeper.keeper import Keeper
from racewright.desk.seam import Data, Options, Page
from racewright.desk.work.lasting import Lasting
from racewright.desk.work.newest import Kind, Newest
from racewright.desk.work.pool import Pool

KEPT = 60
"""Answers held for pages that are opened again; the longest have some 100 kB."""


class Desk:
    """Everything that a page or the API needs.

    Parameters
    ----------
    keeper : Keeper
    pool : Pool
    """

    def __init__(self, keeper: Keeper, pool: Pool) -> None:
        self.keeper = keeper
        self.pool = pool
        self.newest = Newest(pool)
        self.dossier = Lasting(pool)
        """The making of the dossier: it belongs to the scheme, not to the tab that began it."""
        self._held: OrderedDict[str, Answer] = OrderedDict()

    def held(self, page: Page, options: Options) -> Answer | None:
        """The answer of a page for the draft as it is, where it is at hand."""
        return self._held.get(self._key(page.name, options))

    async def page(self, tab: str, page: Page, options: Options) -> Answer:
        """The answer of a page.

        Raises
        ------
        InputError, NoAnswerError
            As the computation has it.
        Cancelled
            The same tab asked this page again meanwhile.
        """
        sent = (answer_page, page.name, self.keeper.data, self.keeper.shown, options)
        return await self._answer((tab, page.name), self._key(page.name, options), sent)

    async def further(self, tab: str, kind: str, function: Data, options: Options, *, quick: bool = False) -> Answer:
        """The answer of another function of the draft; `kind` and `quick` as `Screen.further`; raises as `page`."""
        sent = (answer_with, function, self.keeper.data, self.keeper.shown, options)
        if quick:  # may stand on what its worker remembers, and is not held
            return await self.newest.ask((tab, kind), *sent, quick=True)  # type: ignore[no-any-return]
        key = self._key(f"{function.__module__}.{function.__qualname__}", options)
        return await self._answer((tab, kind), key, sent)

    async def _answer(self, kind: Kind, key: str, sent: tuple[Any, ...]) -> Answer:
        answer = self._held.get(key)
        if answer is not None:
            self.newest.stop(kind)  # an older request must not answer after this
        else:
            answer = await self.newest.ask(kind, *sent)
            self._held[key] = answer
        self._held.move_to_end(key)
        while len(self._held) > KEPT:
            self._held.popitem(last=False)
        return answer

    def _key(self, what: str, options: Options) -> str:
        loaded = self.keeper.loaded
        return repr((what, loaded.digest, memory.stamps(loaded), options))
