"""The holding page in a real browser: an anchor moved by key, a wrong place told at its field, a strike played."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from pathlib import Path
from urllib.request import urlopen

import pytest

os.environ.update(SE_OFFLINE="true", SE_AVOID_STATS="true")
pytest.importorskip("selenium", reason="selenium is not installed: the desk was not tried in a real browser")

from selenium import webdriver
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.ui import WebDriverWait
from tools.screens.browser import browser_path, complaints, start
from tools.screens.served import desk
from tools.screens.shoot import wait_for

from racewright.dossier import format as fmt
from tests.desk.common import example

pytestmark = [
    pytest.mark.skipif(
        browser_path() is None, reason="no chromium with its driver here: the desk was not tried in a real browser"
    ),
    pytest.mark.skipif(
        os.environ.get("RACEWRIGHT_BROWSER") != "1",
        reason="the desk in a real browser is tried by hand so far: RACEWRIGHT_BROWSER=1 (see docs/next.md)",
    ),
]


@pytest.fixture(scope="module")
def scheme(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return example(tmp_path_factory.mktemp("holding_browser"))


@pytest.fixture(scope="module")
def address(scheme: Path) -> Iterator[str]:
    with desk(scheme) as found:
        yield found.rstrip("/")


@pytest.fixture(params=[(1280, 800), (390, 844)], ids=["wide", "phone"])
def driver(request: pytest.FixtureRequest) -> Iterator[webdriver.Chrome]:
    made = start(*request.param, dark=request.param[0] < 600)
    yield made
    made.quit()


def test_an_anchor_moved_by_key_and_taken_back(address: str, driver: webdriver.Chrome, scheme: Path) -> None:
    """Two steps of 5 cm to the left; its mirror image goes to the right; the file stays as it is."""
    before = scheme.read_bytes()
    _open(address, driver)
    handle = driver.find_element(By.CSS_SELECTOR, "[role=slider][aria-label='anchor bow port, From above']")
    handle.send_keys(Keys.ARROW_UP, Keys.ARROW_UP)
    _until(driver, "return document.querySelector('.state').textContent === 'not saved'")
    _until(driver, f"return {_field('bow port', 'left')}.value === '0.90 m'")
    _until(driver, f"return {_field('bow starboard', 'left')}.value === '-0.90 m'")
    driver.find_element(By.CSS_SELECTOR, "[data-keys=undo]").click()
    _until(driver, "return document.querySelector('.state').textContent === 'saved'")
    _until(driver, f"return {_field('bow port', 'left')}.value === '0.8 m'")
    assert scheme.read_bytes() == before
    assert complaints(driver) == []


def test_a_wrong_place_is_told_at_its_field(address: str, driver: webdriver.Chrome) -> None:
    _open(address, driver)
    entry = driver.find_element(By.CSS_SELECTOR, "[aria-label='Anchor bow port'] input[aria-label=ahead]")
    entry.send_keys(Keys.CONTROL, "a")
    entry.send_keys("24 kg", Keys.ENTER)
    _until(driver, "return !!document.querySelector(`[aria-label='Anchor bow port'] .q-field--error`)")
    assert driver.find_element(By.CSS_SELECTOR, ".state").text == "saved"


def test_a_strike_is_played_on_both_time_scales(address: str, driver: webdriver.Chrome) -> None:
    """First milliseconds, then seconds; the force on the screen is the API's."""
    with urlopen(f"{address}/api/holding?part=struck") as reply:
        logs = json.load(reply)["strikes"]["logs"]
    hardest = max(logs, key=lambda log: log["first_blow"]["force"]["high_SI"])
    _open(address, driver)
    _until(driver, "return !!document.querySelector('.holding-strike svg')")
    section = driver.find_element(By.CSS_SELECTOR, ".holding-struck").text
    assert fmt.quantity(hardest["first_blow"]["force"]["high_SI"], fmt.FORCE) in section
    play = driver.find_element(By.CSS_SELECTOR, ".holding-strike button")
    driver.execute_script("arguments[0].scrollIntoView(); arguments[0].click()", play)
    said = "document.querySelector('.holding-strike output').textContent"
    _until(driver, f"return /Blow, [1-9].*ms/.test({said})")
    _until(driver, f"return /[0-9]\\.[0-9]+\\s?s after the touch: slow tension/.test({said})")
    assert complaints(driver) == []


def _field(anchor: str, label: str) -> str:
    return f"document.querySelector(`[aria-label='Anchor {anchor}'] input[aria-label={label}]`)"


def _open(address: str, driver: webdriver.Chrome) -> None:
    driver.get(f"{address}/holding")
    wait_for(driver)
    _until(driver, "return !!document.querySelector('.holding-drawing .line')")


def _until(driver: webdriver.Chrome, said: str) -> None:
    WebDriverWait(driver, 120).until(lambda d: d.execute_script(said))
