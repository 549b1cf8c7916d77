"""One desk and one browser for a whole file of tests in a real browser; every wait is for something that shows."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.request import urlopen

import pytest

pytest.importorskip("selenium", reason="selenium is not installed: the desk was not tried in a real browser")

from selenium import webdriver
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from selenium.webdriver.remote.webelement import WebElement
from selenium.webdriver.support.ui import WebDriverWait
from tools.screens.browser import SIZES, browser, browser_path, complaints, dress, requests
from tools.screens.layout import lies_wrong
from tools.screens.served import desk
from tools.screens.settled import settle, until

__all__ = ["NEEDS_BROWSER", "PHONE", "WIDE", "Keys", "Seen", "WebDriverWait", "desk_in_browser", "shared_folder"]

AXE = Path(__file__).with_name("data") / "axe.min.js"

NEEDS_BROWSER = pytest.mark.skipif(
    browser_path() is None, reason="no Chromium with its driver here: the desk was not tried in a real browser"
)

WIDE, PHONE = SIZES

_RUN_AXE = """
const [rules, done] = arguments;
const within = { include: [["html"]], exclude: [[".drawing svg"], [".js-plotly-plot svg"]] };
const told = (n) => `${n.target.join(" ")}: ${n.failureSummary.replace(/\\s+/g, " ").slice(0, 240)}`;
const only = rules.length ? { runOnly: { type: "rule", values: rules } } : {};
axe.run(within, { resultTypes: ["violations"], ...only }).then(
  (found) => done(found.violations.map((v) => `${v.id}: ${v.nodes.slice(0, 5).map(told).join(" | ")}`)),
  (fault) => done([String(fault)]),
);
"""
"""Drawings and charts are pictures with words of their own; what is inside them is lettering."""


@dataclass(frozen=True)
class Seen:
    """A desk in a browser.

    Attributes
    ----------
    driver : webdriver.Chrome
    address : str
        Of the desk, without the last '/'.
    scheme : Path
        Its file.
    """

    driver: webdriver.Chrome
    address: str
    scheme: Path

    def open(self, path: str, size: tuple[int, int] = WIDE, *, dark: bool = False) -> None:
        """Open a page in a window of that size, and wait until it is at rest."""
        dress(self.driver, *size, dark=dark)
        self.driver.get(self.address + path)
        settle(self.driver)

    def light(self, size: tuple[int, int], *, dark: bool) -> None:
        """Turn the system's light; the page that stands follows."""
        dress(self.driver, *size, dark=dark)
        settle(self.driver)

    def forget(self) -> None:
        """Let the browser be one that was never here."""
        self.driver.delete_all_cookies()
        self.driver.execute_script("sessionStorage.clear()")

    def one(self, selector: str) -> WebElement:
        """The first element of a CSS selector."""
        return self.driver.find_element(By.CSS_SELECTOR, selector)

    def all(self, selector: str) -> list[WebElement]:
        """Every element of a CSS selector."""
        return self.driver.find_elements(By.CSS_SELECTOR, selector)

    def until(self, script: str, *arguments: Any) -> Any:
        """What a script of the page returns, once that is true."""
        return until(self.driver, script, *arguments, longest=90.0)

    def rest(self) -> None:
        """Wait until the page is at rest."""
        settle(self.driver)

    def type(self, label: str, text: str) -> WebElement:
        """Write a text into the field of that label, and press Enter."""
        entry = self.one(f"input[aria-label='{label}']")
        entry.send_keys(Keys.CONTROL, "a")
        entry.send_keys(text, Keys.ENTER)
        return entry

    def figures(self) -> dict[str, str]:
        """Large numbers on the page by what is said over them."""
        script = (
            "return [...document.querySelectorAll('.figure')].map(f =>"
            " [f.querySelector('dt').textContent, f.querySelector('.number').textContent])"
        )
        return dict(self.driver.execute_script(script))

    def api(self, path: str) -> Any:
        """What the desk's JSON says at a path under /api."""
        with urlopen(f"{self.address}/api{path}") as reply:
            return json.load(reply)

    def complaints(self) -> list[str]:
        """What the console said since the last call."""
        return complaints(self.driver)

    def requests(self) -> list[str]:
        """What was asked for since the last call."""
        return requests(self.driver)

    def foreign(self) -> list[str]:
        """What was asked of others than this desk since the last call."""
        own = self.address.removeprefix("http:")
        return [url for url in self.requests() if own not in url]

    def lies_wrong(self) -> list[str]:
        """Text cut off, over other text, or beside the window."""
        return lies_wrong(self.driver)

    def hidden_from_some(self, *rules: str) -> list[str]:
        """What axe-core finds on the page as it stands, by every rule or by those named."""
        if not self.driver.execute_script("return typeof axe === 'object'"):
            self.driver.execute_script(AXE.read_text("utf-8"))
        found: list[str] = self.driver.execute_async_script(_RUN_AXE, rules)
        return found


@contextmanager
def desk_in_browser(scheme: Path, cache: Path) -> Iterator[Seen]:
    """A desk of a scheme, and a browser that was never there."""
    with desk(scheme, extra={"RACEWRIGHT_CACHE": str(cache)}) as address, browser() as driver:
        yield Seen(driver, address.rstrip("/"), scheme)


def shared_folder(factory: pytest.TempPathFactory) -> Path:
    """One for all worker processes of a test run: what one computed, the next only reads."""
    own = factory.getbasetemp()
    folder = (own.parent if "PYTEST_XDIST_WORKER" in os.environ else own) / "desk_in_browser"
    folder.mkdir(exist_ok=True)
    return folder
