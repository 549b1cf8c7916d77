"""The machine page in a real browser: vanes turned by two degrees, read off as the command line would tell it."""

from __future__ import annotations

from typing import Any

import pytest

from racewright.dossier import format as fmt
from tests.desk.browser import NEEDS_BROWSER, PHONE, WIDE, Keys, Seen

pytestmark = NEEDS_BROWSER

BOTH = pytest.mark.parametrize("size", [WIDE, PHONE], ids=["wide", "phone"])


def test_vanes_turned_two_degrees_by_key(seen: Seen) -> None:
    """Four steps of half a degree; CP and the year are the API's, the change is against the saved file's."""
    seen.open("/machine", PHONE)
    before, saved = _told(seen, "point"), _told(seen, "year")
    handle = seen.one("[role=slider][aria-label='vanes turned']")
    for _step in range(4):
        handle.send_keys(Keys.ARROW_UP)  # the same one: answers that come meanwhile must not take it away
    seen.until("return document.querySelector(`input[aria-label='vanes turned, deg']`).value === '2.0 deg'")
    assert handle.get_attribute("aria-valuetext") == "vanes turned 2.0 deg"
    seen.rest()
    changed = "return (document.querySelector('.figures').innerText.match(/against the saved/g) || []).length === 4"
    seen.until(changed)
    after, year = _told(seen, "point"), _told(seen, "year")
    figures = seen.one(".figures").text
    assert fmt.number(after["point"]["power_coefficient"], 4) in figures
    assert fmt.quantity(year["energy"]["total_J"]["value"], fmt.ENERGY) in figures
    ratio = year["energy"]["total_J"]["value"] / saved["energy"]["total_J"]["value"]
    assert f"{fmt.number(100.0 * (ratio - 1.0), 2)}{fmt.THIN}%" in figures
    assert after["point"]["power_coefficient"] != before["point"]["power_coefficient"]
    assert b'turned = "0 deg"           #' in seen.scheme.read_bytes()
    for size in (PHONE, WIDE):
        seen.light(size, dark=False)
        assert seen.lies_wrong() == []
    assert seen.hidden_from_some() == []
    while not seen.driver.execute_script("return document.querySelector('.state').textContent === 'saved'"):
        before = seen.one("input[aria-label='vanes turned, deg']").get_attribute("value")
        seen.one("[data-keys=undo]").click()
        seen.until(
            "return document.querySelector(`input[aria-label='vanes turned, deg']`).value !== arguments[0]", before
        )
    assert seen.one("input[aria-label='vanes turned, deg']").get_attribute("value") == "0 deg"
    assert seen.complaints() == []


@BOTH
def test_a_wrong_value_is_told_at_its_field(seen: Seen, size: tuple[int, int]) -> None:
    seen.open("/machine", size)
    seen.type("throat diameter, m", "1 kg")
    seen.until("return !!document.querySelector('.machine-fields .q-field--error')")
    assert "mass" in seen.one(".machine-fields .q-field--error").text
    assert seen.one(".state").text == "saved"
    assert seen.lies_wrong() == []


@BOTH
def test_the_solid_is_drawn_and_pulled_apart(seen: Seen, size: tuple[int, int]) -> None:
    """Its library is the desk's own; the picture changes when the parts are pulled apart."""
    seen.open("/machine", size)
    seen.requests()
    seen.driver.execute_script("document.querySelector('.machine-round').scrollIntoView({block: 'center'})")
    seen.until("return !document.querySelector('.machine-round .none')")
    seen.rest()
    canvas = seen.one(".machine-round canvas")
    whole = canvas.screenshot_as_png
    pull = (
        "const i = document.querySelector('.machine-round input[type=range]');"
        " i.value = 0.8; i.dispatchEvent(new Event('input')); return true"
    )
    seen.until(pull)
    seen.rest()
    assert canvas.screenshot_as_png != whole
    assert seen.foreign() == []
    assert seen.complaints() == []


_COUNT = """
const gl = document.querySelector(".machine-round canvas").getContext("webgl2"), own = gl.drawElements.bind(gl);
window.solidDrawn = 0;
gl.drawElements = (...given) => { window.solidDrawn += 1; own(...given); };
"""
_STIR = """
const done = arguments[0];
let left = 8;
const next = () => {
  document.body.classList.toggle("stirred");
  left-- ? requestAnimationFrame(next) : done(window.solidDrawn);
};
next();
"""


def test_the_solid_rests_while_nothing_changes(seen: Seen) -> None:
    """The kit changes classes of the body at every turn; drawing anew takes all of a processor without a card."""
    seen.open("/machine", WIDE)
    seen.driver.execute_script("document.querySelector('.machine-round').scrollIntoView({block: 'center'})")
    seen.until("return !document.querySelector('.machine-round .none')")
    seen.rest()
    seen.driver.execute_script(_COUNT)
    assert seen.driver.execute_async_script(_STIR) == 0
    seen.one(".machine-round canvas").send_keys(Keys.ARROW_LEFT)
    seen.until("return window.solidDrawn > 0")


def _told(seen: Seen, part: str) -> Any:
    return seen.api(f"/machine?part={part}")
