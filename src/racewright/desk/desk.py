"""The desk of one scheme: keeper, workers and what was answered last."""

from __future__ import annotations

from collections import OrderedDict

from racewright.desk import memory
from racewright.desk.answer import Answer, answer_page
from racewright.desk.keeper.keeper import Keeper
from racewright.desk.seam import Options, Page
from racewright.desk.work.lasting import Lasting
from racewright.desk.work.newest import Newest
from racewright.desk.work.pool import Pool

KEPT = 40
"""Answers held for pages that are opened again."""


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
        return self._held.get(self._key(page, options))

    async def page(self, tab: str, page: Page, options: Options) -> Answer:
        """The answer of a page.

        Raises
        ------
        InputError, NoAnswerError
            As the computation has it.
        Cancelled
            The same tab asked this page again meanwhile.
        """
        key = self._key(page, options)
        answer = self._held.get(key)
        if answer is not None:
            self.newest.stop((tab, page.name))  # an older request must not answer after this
        else:
            sent = (page.name, self.keeper.data, self.keeper.shown, options)
            answer = await self.newest.ask((tab, page.name), answer_page, *sent)
            self._held[key] = answer
        self._held.move_to_end(key)
        while len(self._held) > KEPT:
            self._held.popitem(last=False)
        return answer

    def _key(self, page: Page, options: Options) -> str:
        loaded = self.keeper.loaded
        return repr((page.name, loaded.digest, memory.stamps(loaded), options))
