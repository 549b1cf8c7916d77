"""The chapter on how the machine is held says at which speeds and headings its watch circle was asked."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from racewright.dossier.chapters import held
from racewright.dossier.document import Text
from racewright.holding.statics_watch import WatchCircle
from racewright.ledger.holding_parts import HoldingFindings
from racewright.ledger.nodes_holding import WATCHED
from tests.dossier.holding_found import found


def told(watch: WatchCircle) -> str:
    whole = found()
    changed: HoldingFindings = replace(whole, held=replace(whole.held, watch=watch))
    words = [block.text for block in held.blocks(changed) if isinstance(block, Text)]
    (said,) = (text for text in words if text.startswith("Everything that is wanted holds"))
    return said.replace("\u202f", " ")


def test_speeds_and_headings_of_the_watch_circle_are_told() -> None:
    said = told(found().held.watch)
    assert "turned by up to 20° to either side" in said
    assert "at 1.00 m/s, 2.00 m/s and 2.50 m/s, the machine's reference moves within" in said
    assert "no rest" not in said
    assert max(WATCHED) == 1.0


def test_a_rest_that_was_not_found_is_told() -> None:
    whole = found().held.watch
    settled = whole.settled.copy()
    settled[0, -1] = False
    assert "in 1 of 15 of these no rest was found" in told(replace(whole, settled=settled))
    nothing = replace(whole, settled=np.zeros_like(settled), radius=float("nan"), swept_radius=float("nan"))
    assert "no rest was found, so how far the machine moves is not known" in told(nothing)


def test_a_stream_that_does_not_turn_is_told_so() -> None:
    whole = found().held.watch
    ahead = {name: getattr(whole, name)[2:3] for name in ("x", "y", "height", "yaw", "settled", "feasible", "reason")}
    assert "with the stream ahead, at 1.00 m/s" in told(replace(whole, heading=np.zeros(1), **ahead))
