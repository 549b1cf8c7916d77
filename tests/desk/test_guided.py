"""The two-minute look: its steps without a browser, and walked through by key in a real one."""

from __future__ import annotations

import json
import re

from racewright.desk.frame.guided import STEPS, guided, steps_on
from racewright.desk.seam import all_pages, page_named
from tests.desk.browser import NEEDS_BROWSER, PHONE, WIDE, Keys, Seen

_TARGET = """
const ring = document.querySelector(".guided.ring"), card = document.querySelector(".guided.card");
if (!ring || ring.dataset.still !== "true" || ring.hidden) return null;
const [r, c] = [ring.getBoundingClientRect(), card.getBoundingClientRect()];
const hits = (b) => b.bottom > c.top + 1 && b.top < c.bottom && b.right > c.left && b.left < c.right;
const thing = document.querySelector(`#page ${ring.dataset.at}, header ${ring.dataset.at}`);
const over = hits(r) || [...thing.querySelectorAll(".number")].some((n) => hits(n.getBoundingClientRect()));
const focus = document.activeElement.textContent;
return { at: ring.dataset.at, top: r.top, bottom: r.bottom, over, high: innerHeight, focus };
"""

_SHEET = """
const c = document.querySelector(".guided.card").getBoundingClientRect();
const wide = c.left === 0 && c.right === innerWidth;
return wide && Math.abs(c.bottom - innerHeight) < 1 && c.height < 0.46 * innerHeight;
"""


def test_a_step_whose_page_is_not_there_is_left_out() -> None:
    """Without the machine's page its step goes, the others stay in their order; and with no page nothing is left."""
    known = [page for page in all_pages() if page.name != "machine"]
    found = [step["page"] for step in steps_on(known)]
    assert found == [s.page for s in STEPS if s.page in {p.name for p in known}]
    assert "machine" not in found
    assert steps_on([]) == []


def test_the_steps_begin_at_the_entry_and_end_at_the_dossier() -> None:
    steps = steps_on(all_pages())
    assert (steps[0]["address"], steps[-1]["page"]) == ("/", "dossier")
    assert len(steps) >= 6


def test_what_the_page_carries_is_json_that_cannot_close_its_script() -> None:
    found = re.search(r">(\[.*?\])</script>", guided([page_named("standing")]))
    assert found is not None
    assert "<" not in found[1]
    assert [step["page"] for step in json.loads(found[1])] == ["standing", "standing"]


@NEEDS_BROWSER
def test_the_look_by_key_from_the_first_visit_to_the_end(seen: Seen) -> None:
    """Each step points at a thing in sight, clear of the card; afterwards the desk does not offer it again."""
    _first_visit(seen, PHONE)
    assert seen.hidden_from_some() == []
    assert seen.lies_wrong() == []
    seen.one(".guided.offer .knob.strong").send_keys(Keys.ENTER)
    steps = steps_on(all_pages())
    for at, step in enumerate(steps):
        seen.until("return location.pathname === arguments[0]", step["address"])
        seen.until("return document.querySelector('.guided.card h2')?.textContent === arguments[0]", step["title"])
        seen.rest()
        there = seen.until(_TARGET)
        assert there["at"] in (step["target"], "h1")
        assert there["at"] == step["target"] or step["page"] not in ("standing", "machine", "place", "dossier")
        assert -8 <= there["top"] < there["bottom"] <= there["high"]
        assert not there["over"]
        assert there["focus"] == ("Done" if at + 1 == len(steps) else "Next")
        assert seen.hidden_from_some() == [] if at == 0 else True
        assert seen.driver.execute_script(_SHEET)
        seen.driver.switch_to.active_element.send_keys(Keys.ENTER)
    seen.until("return !document.querySelector('.guided')")
    seen.open("/", PHONE)
    assert not seen.all(".guided")
    assert seen.complaints() == []


@NEEDS_BROWSER
def test_it_can_be_declined_and_asked_for_again(seen: Seen) -> None:
    _first_visit(seen, WIDE)
    assert seen.lies_wrong() == []
    seen.one(".guided.offer .quiet").click()
    seen.open("/place", WIDE)
    assert not seen.all(".guided")
    seen.one("[data-guided]").click()
    seen.until("return location.pathname === '/' && !!document.querySelector('.guided.card')")
    there = seen.until(_TARGET)
    assert seen.one(".guided.card").get_attribute("data-at") == "right"
    assert there["at"] == STEPS[0].target
    assert 0 <= there["top"] < there["bottom"] <= there["high"]
    assert not there["over"]
    seen.driver.switch_to.active_element.send_keys(Keys.ESCAPE)
    assert not seen.all(".guided")
    assert seen.driver.execute_script("return document.activeElement.id") == "page"


def _first_visit(seen: Seen, size: tuple[int, int]) -> None:
    seen.open("/", size)
    seen.forget()
    seen.open("/", size)
    assert "two-minute look" in seen.one(".guided.offer").text
