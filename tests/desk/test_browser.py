"""Every page of a real desk in a real browser: numbers of the command, nothing foreign, nothing cut off or hidden."""

from __future__ import annotations

from typing import Any, get_args

import pytest

from racewright.desk.seam import Page, all_pages
from racewright.dossier import format as fmt
from racewright.uncertainty import Band
from tests.desk.browser import NEEDS_BROWSER, PHONE, WIDE, Keys, Seen, WebDriverWait
from tests.desk.shown import not_in

pytestmark = NEEDS_BROWSER

ELSEWHERE = "http://elsewhere.invalid/"

PAGES = pytest.mark.parametrize("page", all_pages(), ids=lambda page: page.name)
BOTH = pytest.mark.parametrize("size", [WIDE, PHONE], ids=["wide", "phone"])


def _standing(told: dict[str, Any]) -> dict[str, str]:
    point = told["machine"]["design_point"]
    return {
        f"Shaft power at {fmt.fixed(point['stream_speed_m_per_s'], fmt.SPEED, 2)}": _band(point["band_W"], fmt.POWER),
        "Energy in a year": _band(told["energy"]["total_J"], fmt.ENERGY),
    }


def _place(told: dict[str, Any]) -> dict[str, str]:
    climate = told["place"]["climate"]
    low = next(s for s in told["place"]["standings"] if "low" in s["label"])
    return {
        "Cube-mean speed": fmt.fixed(climate["mean_cube_speed_m_per_s"], fmt.SPEED, 2),
        "Under the duct at low water": fmt.fixed(low["clearance_m"], fmt.LENGTH, 2),
    }


def _machine(told: dict[str, Any]) -> dict[str, str]:
    point = told["machine"]["design_point"]
    return {
        "Power coefficient, CP": fmt.number(point["power_coefficient"], 4),
        "Thrust coefficient, CT": fmt.number(point["thrust_coefficient"], 4),
        "Energy in a year": fmt.quantity(told["energy"]["total_J"]["value"], fmt.ENERGY),
    }


def _neighbours(told: dict[str, Any]) -> dict[str, str]:
    free = told["neighbours"]["debris"]["opening"]
    return {"Largest ball that passes": fmt.quantity(free["sphere_m"], fmt.SMALL_LENGTH)}


def _band(band: dict[str, Any], scales: tuple[fmt.Scale, ...]) -> str:
    return fmt.band(Band(**band), scales).value


MAIN = {"standing": _standing, "place": _place, "machine": _machine, "neighbours": _neighbours}
"""Figures by label that a page must show, by the report's JSON."""


@PAGES
@BOTH
def test_a_page_is_whole_and_open_to_everybody(seen: Seen, page: Page, size: tuple[int, int]) -> None:
    """No complaint, no foreign request, nothing cut off or overlapping; axe-core is content in both lights."""
    seen.requests()
    seen.open(page.address, size)
    assert seen.one("h1").text == page.title
    assert seen.complaints() == []
    assert seen.requests() != []
    assert seen.lies_wrong() == []
    assert not seen.all(".notice[role=alert]")
    assert seen.hidden_from_some() == []
    seen.light(size, dark=True)
    assert seen.one("body.body--dark")
    assert seen.hidden_from_some("color-contrast", "link-in-text-block") == []  # all else is as it was by day
    assert seen.foreign() == []
    assert seen.complaints() == []


@BOTH
def test_a_long_page_has_a_list_of_its_parts(seen: Seen, size: tuple[int, int]) -> None:
    """Folded away on a phone; every part in its order; by key to a part, whose heading then has the focus."""
    seen.open("/place", size)
    headings = "return [...document.querySelectorAll('#page section.part > h2')].map((h) => h.textContent)"
    links = "return [...document.querySelectorAll('#page nav.parts a')].map((a) => a.textContent)"
    assert len(seen.driver.execute_script(headings)) > 3
    assert seen.driver.execute_script(links) == seen.driver.execute_script(headings)
    fold = seen.one("nav.parts details")
    assert (fold.get_attribute("open") is None) == (size == PHONE)
    if size == PHONE:
        seen.one("nav.parts summary").send_keys(Keys.ENTER)
        assert fold.get_attribute("open") is not None
        assert seen.lies_wrong() == []
        assert seen.hidden_from_some() == []
    last = seen.all("nav.parts a")[-1]
    title = last.text
    last.send_keys(Keys.ENTER)
    seen.until("return document.activeElement.textContent === arguments[0]", title)
    seen.until(
        "const b = document.activeElement.getBoundingClientRect(); return b.top >= 0 && b.bottom <= innerHeight"
    )
    assert (seen.one("nav.parts details").get_attribute("open") is None) == (size == PHONE)
    assert seen.complaints() == []


_CAUTIONS = """
const shown = (found) => [...found].filter((e) => e.checkVisibility());
const parts = (e) => shown(e.querySelectorAll(":scope > span")).map((s) => s.firstElementChild.textContent.trim());
const text = (e) => e.closest(".cautions") && e.matches(".safety") ? parts(e) : [e.textContent.trim()];
return shown(document.querySelectorAll("#page .note.safety, #page .remarks li p:last-child")).flatMap(text);
"""


@PAGES
def test_no_caution_is_told_twice(seen: Seen, page: Page) -> None:
    seen.open(page.address)
    if page.name == "holding":
        seen.until("return !!document.querySelector('.holding-strike svg')")
    told = seen.driver.execute_script(_CAUTIONS)
    assert {text: told.count(text) for text in told if told.count(text) > 1} == {}
    if page.name == "holding":
        assert "Slow tension in steady water." in told
        assert any("also for" in e.text for e in seen.all("#page .cautions .also"))


def test_what_the_browser_is_asked_would_find_a_fault(seen: Seen) -> None:
    """Each check of the test above sees a fault that is put on the page."""
    seen.open("/")
    seen.driver.execute_script(
        """
        const put = (html) => document.querySelector("#page").insertAdjacentHTML("beforeend", html);
        put('<p id="cut" style="width: 40px; overflow: hidden; white-space: nowrap">a text that is cut off</p>');
        put('<div style="position: relative; height: 40px"><p style="position: absolute">one text</p><p'
            + ' style="position: absolute">on another</p></div>');
        put('<p style="color: #ccc; background: #fff">pale</p><button></button>');
        put('<div style="width: 3000px">wide</div>');
        console.error("a complaint");
        """
    )
    wrong = " ".join(seen.lies_wrong())
    for sign in ("cut off", "lie over each other", "px wide in a window"):
        assert sign in wrong
    hidden = " ".join(seen.hidden_from_some())
    assert "color-contrast" in hidden
    assert "button-name" in hidden
    assert any("a complaint" in told for told in seen.complaints())
    seen.driver.execute_script(f"location.href = '{ELSEWHERE}'")
    WebDriverWait(seen.driver, 30).until(lambda _driver: ELSEWHERE in seen.foreign())


@PAGES
def test_every_figure_on_a_page_is_a_number_of_its_json(seen: Seen, reported: dict[str, Any], page: Page) -> None:
    """Rounded as shown, with its unit; the main ones are named, and are those that `report --json` prints."""
    seen.open(page.address)
    shown = seen.figures()
    assert not_in([seen.api(path) for path in _parts(page)], shown) == []
    wanted = MAIN[page.name](reported) if page.name in MAIN else {}
    assert {label: shown.get(label) for label in wanted} == wanted
    copied = {e.get_attribute("data-copy").partition(" (")[0] for e in seen.all(".figure [data-copy]")}
    assert copied == set(shown.values())


def _parts(page: Page) -> list[str]:
    """Where the API has what the page shows: one address for each part, where it has parts."""
    part = page.options.model_fields.get("part")
    return [f"/{page.name}"] if part is None else [f"/{page.name}?part={p}" for p in get_args(part.annotation)]


def test_an_edit_a_fault_beside_its_field_and_a_reload(seen: Seen) -> None:
    """A wrong value is told at its field; a right one is in the draft after a reload; undo takes it back."""
    before = seen.scheme.read_bytes()
    seen.open("/place", PHONE)
    seen.type("hub height, m", "1.2 kg")
    seen.until("return !!document.querySelector('.q-field--error')")
    assert "length" in seen.one(".q-field--error").text
    assert seen.lies_wrong() == []
    assert seen.hidden_from_some() == []
    seen.open("/machine", PHONE)
    seen.type("design tip-speed ratio", "2.25")
    seen.until("return document.querySelector('.state').textContent === 'not saved'")
    seen.driver.get(f"{seen.address}/machine")
    seen.until("return document.querySelector(`input[aria-label='design tip-speed ratio']`)?.value === '2.25'")
    seen.one("[data-keys=undo]").click()
    seen.until("return document.querySelector('.state').textContent === 'saved'")
    seen.rest()
    assert seen.scheme.read_bytes() == before
    assert seen.complaints() == []
