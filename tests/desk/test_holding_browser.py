"""The holding page in a real browser: an anchor moved by key, a wrong place told at its field, a strike played."""

from __future__ import annotations

import pytest
from selenium.webdriver.common.keys import Keys

from racewright.dossier import format as fmt
from tests.desk.browser import NEEDS_BROWSER, PHONE, WIDE, Seen

pytestmark = NEEDS_BROWSER

BOTH = pytest.mark.parametrize("size", [WIDE, PHONE], ids=["wide", "phone"])


@BOTH
def test_an_anchor_moved_by_key_and_taken_back(seen: Seen, size: tuple[int, int]) -> None:
    """Two steps of 5 cm to the left; its mirror image goes to the right; the file stays as it is."""
    before = seen.scheme.read_bytes()
    _open(seen, size)
    seen.one("[role=slider][aria-label='anchor bow port, From above']").send_keys(Keys.ARROW_UP, Keys.ARROW_UP)
    seen.until("return document.querySelector('.state').textContent === 'not saved'")
    seen.until(f"return {_field('bow port', 'left')}.value === '0.90 m'")
    seen.until(f"return {_field('bow starboard', 'left')}.value === '-0.90 m'")
    seen.one("[data-keys=undo]").click()
    seen.until("return document.querySelector('.state').textContent === 'saved'")
    seen.until(f"return {_field('bow port', 'left')}.value === '0.8 m'")
    assert seen.scheme.read_bytes() == before
    assert seen.complaints() == []


@BOTH
def test_a_wrong_place_is_told_at_its_field(seen: Seen, size: tuple[int, int]) -> None:
    _open(seen, size)
    entry = seen.one("[aria-label='Anchor bow port'] input[aria-label^=ahead]")
    entry.send_keys(Keys.CONTROL, "a")
    entry.send_keys("24 kg", Keys.ENTER)
    seen.until("return !!document.querySelector(`[aria-label='Anchor bow port'] .q-field--error`)")
    assert seen.one(".state").text == "saved"


@BOTH
def test_a_strike_is_played_on_both_time_scales(seen: Seen, size: tuple[int, int]) -> None:
    """First milliseconds, then seconds; the force on the screen is the API's."""
    logs = seen.api("/holding?part=struck")["strikes"]["logs"]
    hit = [log for log in logs if log["first_blow"] is not None]
    hardest = max(hit, key=lambda log: log["first_blow"]["force"]["high_SI"])
    _open(seen, size)
    seen.until("return !!document.querySelector('.holding-strike svg')")
    assert fmt.quantity(hardest["first_blow"]["force"]["high_SI"], fmt.FORCE) in seen.one(".holding-struck").text
    play = seen.one(".holding-strike button")
    seen.driver.execute_script("arguments[0].scrollIntoView(); arguments[0].click()", play)
    said = "document.querySelector('.holding-strike output').textContent"
    seen.until(f"return /Blow, [1-9].*ms/.test({said})")
    seen.until(f"return /[0-9]\\.[0-9]+\\s?s after the touch: slow tension/.test({said})")
    assert seen.complaints() == []


def _field(anchor: str, label: str) -> str:
    return f"document.querySelector(`[aria-label='Anchor {anchor}'] input[aria-label^={label}]`)"


def _open(seen: Seen, size: tuple[int, int]) -> None:
    seen.open("/holding", size)
    seen.until("return !!document.querySelector('.holding-drawing .line')")
