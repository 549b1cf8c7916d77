"""The machine page in a real browser: vanes turned by two degrees, read off as the command line would tell it."""

from __future__ import annotations

import json
import os
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.request import urlopen

import pytest

os.environ.update(SE_OFFLINE="true", SE_AVOID_STATS="true")
pytest.importorskip("selenium", reason="selenium is not installed: the desk was not tried in a real browser")

from selenium import webdriver
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.support.ui import WebDriverWait
from tools.screens.browser import browser_path, complaints, requests, start
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

SOFTWARE = "GPU stall due to ReadPixels"
"""What a browser without a graphics card says of its own drawing."""


@pytest.fixture(scope="module")
def scheme(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return example(tmp_path_factory.mktemp("machine_browser"))


@pytest.fixture(scope="module")
def address(scheme: Path) -> Iterator[str]:
    with desk(scheme) as found:
        yield found.rstrip("/")


@pytest.fixture(params=[(1280, 800), (390, 844)], ids=["wide", "phone"])
def driver(request: pytest.FixtureRequest) -> Iterator[webdriver.Chrome]:
    made = start(*request.param, dark=request.param[0] < 600)
    yield made
    made.quit()


def test_vanes_turned_two_degrees_by_key(address: str, driver: webdriver.Chrome, scheme: Path) -> None:
    """Four steps of half a degree; CP and the year are the API's, the change is against the saved file's."""
    before, saved = _told(address, "point"), _told(address, "year")
    _open(address, driver)
    handle = driver.find_element(By.CSS_SELECTOR, "[role=slider][aria-label='vanes turned']")
    for _step in range(4):
        handle.send_keys(Keys.ARROW_UP)
    _until(driver, "return document.querySelector('.state').textContent === 'not saved'")
    entry = driver.find_element(By.CSS_SELECTOR, "input[aria-label='vanes turned']")
    _until(driver, "return document.querySelector(`input[aria-label='vanes turned']`).value === '2.0 deg'")
    wait_for(driver)
    _until(
        driver, "return (document.querySelector('.figures').innerText.match(/against the saved/g) || []).length === 4"
    )
    after, year = _told(address, "point"), _told(address, "year")
    figures = driver.find_element(By.CSS_SELECTOR, ".figures").text
    assert fmt.number(after["point"]["power_coefficient"], 4) in figures
    assert fmt.quantity(year["energy"]["total_J"]["value"], fmt.ENERGY) in figures
    ratio = year["energy"]["total_J"]["value"] / saved["energy"]["total_J"]["value"]
    assert f"{fmt.number(100.0 * (ratio - 1.0), 2)}{fmt.THIN}%" in figures
    assert after["point"]["power_coefficient"] != before["point"]["power_coefficient"]
    assert b'turned = "0 deg"           #' in scheme.read_bytes()
    driver.find_element(By.CSS_SELECTOR, "[data-keys=undo]").click()
    _until(driver, "return document.querySelector('.state').textContent === 'saved'")
    assert entry.get_attribute("value") == "0 deg"
    assert complaints(driver) == []


def test_a_wrong_value_is_told_at_its_field(address: str, driver: webdriver.Chrome) -> None:
    _open(address, driver)
    entry = driver.find_element(By.CSS_SELECTOR, "input[aria-label='throat diameter']")
    entry.send_keys(Keys.CONTROL, "a")
    entry.send_keys("1 kg", Keys.ENTER)
    _until(driver, "return !!document.querySelector('.machine-fields .q-field--error')")
    assert driver.find_element(By.CSS_SELECTOR, ".state").text == "saved"


def test_the_solid_is_drawn_and_pulled_apart(address: str, driver: webdriver.Chrome) -> None:
    """Its library is the desk's own; the picture changes when the parts are pulled apart."""
    _open(address, driver)
    requests(driver)
    driver.execute_script("document.querySelector('.machine-round').scrollIntoView({block: 'center'})")
    _until(driver, "return !document.querySelector('.machine-round .none')")
    canvas = driver.find_element(By.CSS_SELECTOR, ".machine-round canvas")
    whole = canvas.screenshot_as_png
    driver.execute_script(
        "const i = document.querySelector('.machine-round input[type=range]');"
        " i.value = 0.8; i.dispatchEvent(new Event('input'))"
    )
    WebDriverWait(driver, 20).until(lambda _d: canvas.screenshot_as_png != whole)
    assert [url for url in requests(driver) if not re.match(r"\w+://127\.0\.0\.1:", url)] == []
    assert [c for c in complaints(driver) if SOFTWARE not in c] == []


def _open(address: str, driver: webdriver.Chrome) -> None:
    driver.get(f"{address}/machine")
    wait_for(driver)
    _until(driver, "return !!document.querySelector('.machine-drawing .line')")


def _told(address: str, part: str) -> Any:
    with urlopen(f"{address}/api/machine?part={part}") as reply:
        return json.load(reply)


def _until(driver: webdriver.Chrome, said: str) -> None:
    WebDriverWait(driver, 120).until(lambda d: d.execute_script(said))
