"""A real headless browser on a real desk: numbers equal the command line's, nothing foreign, no complaint."""

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
from tools.screens.browser import browser_path, complaints, requests, start
from tools.screens.served import desk
from tools.screens.shoot import wait_for

from racewright.desk.seam import all_pages
from racewright.dossier import format as fmt
from racewright.uncertainty import Band
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
    return example(tmp_path_factory.mktemp("browser"))


@pytest.fixture(scope="module")
def address(scheme: Path) -> Iterator[str]:
    with desk(scheme) as found:
        yield found.rstrip("/")


@pytest.fixture(params=[(1280, 800), (390, 844)], ids=["wide", "phone"])
def driver(request: pytest.FixtureRequest) -> Iterator[webdriver.Chrome]:
    made = start(*request.param, dark=request.param[0] < 600)
    yield made
    made.quit()


def test_every_page_opens_without_complaint_and_asks_nobody_else(address: str, driver: webdriver.Chrome) -> None:
    requests(driver)
    for page in all_pages():
        driver.get(address + page.address)
        wait_for(driver)
        assert driver.find_element(By.TAG_NAME, "h1").text == page.title
        assert complaints(driver) == []
        asked = requests(driver)
        assert asked
        assert [url for url in asked if "//127.0.0.1:" not in url] == []
        across = driver.execute_script("return [document.documentElement.scrollWidth, innerWidth]")
        assert across[0] <= across[1], f"{page.name} is wider than the window"
        assert not driver.find_elements(By.CSS_SELECTOR, ".notice[role=alert]")


def test_the_numbers_on_the_screen_are_those_of_the_json(address: str, driver: webdriver.Chrome) -> None:
    """`test_pages.py` shows that the JSON is the command line's; here that the screen shows it."""
    with urlopen(f"{address}/api/standing") as reply:
        told = json.load(reply)
    band = told["machine"]["design_point"]["band_W"]
    power = fmt.band(Band(**band), fmt.POWER)
    driver.get(address)
    wait_for(driver)
    shown = driver.find_element(By.CSS_SELECTOR, ".figure .number").text
    assert shown == power.value
    copied = driver.find_element(By.CSS_SELECTOR, ".figure [data-copy]").get_attribute("data-copy")
    assert copied == f"{power.value} ({power.range})"


def test_an_edit_a_fault_beside_its_field_and_a_reload(address: str, driver: webdriver.Chrome, scheme: Path) -> None:
    """A wrong value is told at its field; a right one is in the draft after a reload; undo takes it back."""
    before = scheme.read_bytes()
    driver.get(f"{address}/place")
    wait_for(driver)
    entry = driver.find_element(By.CSS_SELECTOR, "input[aria-label='hub depth']")
    entry.send_keys(Keys.CONTROL, "a")
    entry.send_keys("1.2 kg", Keys.ENTER)
    _until(
        driver,
        "return document.body.innerText.includes('write a length') || !!document.querySelector('.q-field--error')",
    )
    entry.send_keys(Keys.CONTROL, "a")
    entry.send_keys("1.25 m", Keys.ENTER)
    _until(driver, "return document.querySelector('.state').textContent === 'not saved'")
    driver.get(f"{address}/place")
    wait_for(driver)
    entry = driver.find_element(By.CSS_SELECTOR, "input[aria-label='hub depth']")
    assert entry.get_attribute("value") == "1.25 m"
    driver.find_element(By.CSS_SELECTOR, "[data-keys=undo]").click()
    _until(driver, "return document.querySelector('.state').textContent === 'saved'")
    assert scheme.read_bytes() == before
    assert complaints(driver) == []


def _until(driver: webdriver.Chrome, said: str) -> None:
    from selenium.webdriver.support.ui import WebDriverWait

    WebDriverWait(driver, 90).until(lambda d: d.execute_script(said))
