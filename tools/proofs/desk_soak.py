"""Half an hour at the desk: pages opened, values changed and put back, memory and complaints watched."""

from __future__ import annotations

import os
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from selenium import webdriver
from selenium.common.exceptions import StaleElementReferenceException
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys
from tests.desk.common import example

from tools.proofs.line import Measured
from tools.screens.browser import SIZES, browser, browser_path, complaints, dress
from tools.screens.served import desk
from tools.screens.settled import settle

MINUTES = 30.0
WARM_UP = 0.2
"""Share of the time after which memory is first read: pages and kernels are loaded by then."""
GROWTH = 1.2
ATTEMPTS = 5
"""Presses of one key on a handle that is drawn anew meanwhile."""
PAGES = ("", "place", "machine", "trials", "holding", "neighbours", "supply", "dossier")


@dataclass
class Soaked:
    """What half an hour showed.

    Attributes
    ----------
    rounds : int
        Times that every page was opened.
    early, late : float
        Memory of the desk and its workers: median of the first and of the last quarter after the warm-up [MiB].
    said : list of str
        Complaints of the browser's console, and answers that failed.
    """

    rounds: int
    early: float
    late: float
    said: list[str]


def measured() -> Measured:
    """The line of the proof."""
    if browser_path() is None:
        return Measured("no Chromium with its driver here", None)
    found = soak(MINUTES)
    text = (
        f"{MINUTES:.0f} min, {found.rounds} rounds of {len(PAGES)} pages with steps and steps back: memory "
        f"{found.early:.0f} MiB early, {found.late:.0f} MiB late; {len(found.said)} complaints "
        f"{found.said[:3] if found.said else ''}"
    )
    return Measured(text, found.late <= GROWTH * found.early and not found.said)


def soak(minutes: float) -> Soaked:
    """Use the desk for so long."""
    with TemporaryDirectory() as folder:
        scheme = example(Path(folder))
        with desk(scheme) as address, browser() as driver:
            read: list[float] = []
            said: list[str] = []
            begun, rounds = time.monotonic(), 0
            while time.monotonic() < begun + 60.0 * minutes:
                for page in PAGES:
                    dress(driver, *SIZES[rounds % 2], dark=rounds % 4 > 1)
                    driver.get(f"{address.rstrip('/')}/{page}")
                    settle(driver)
                    if page == "machine":
                        _turned_and_back(driver, rounds)
                    said += complaints(driver)
                    said += [e.text for e in driver.find_elements(By.CSS_SELECTOR, ".notice[role=alert]") if e.text]
                    if time.monotonic() > begun + 60.0 * minutes * WARM_UP:
                        read.append(sum(memory(p) for p in family(int(os.getpid()))))
                rounds += 1
    quarter = max(len(read) // 4, 1)
    early, late = sorted(read[:quarter]), sorted(read[-quarter:])
    return Soaked(rounds, early[len(early) // 2], late[len(late) // 2], said)


def _turned_and_back(driver: webdriver.Chrome, rounds: int) -> None:
    for key in (Keys.ARROW_UP, Keys.ARROW_DOWN):
        for _step in range(1 + rounds % 4):
            _press(driver, key)
        settle(driver)


def _press(driver: webdriver.Chrome, key: str) -> None:
    """One key on the handle that stands there now: an answer draws it anew, maybe between finding and pressing."""
    for left in range(ATTEMPTS - 1, -1, -1):
        try:
            driver.find_element(By.CSS_SELECTOR, "[role=slider][aria-label='vanes turned']").send_keys(key)
        except StaleElementReferenceException:
            if not left:
                raise
        else:
            return


def family(pid: int) -> Iterator[int]:
    """Processes below this one that run the desk: itself, its workers; no browser."""
    for child in Path("/proc").glob("[0-9]*"):
        try:
            words = (child / "stat").read_text().rsplit(")", 1)[1].split()
            line = (child / "cmdline").read_bytes()
        except OSError:
            continue
        if int(words[1]) == pid and b"python" in line:
            yield int(child.name)
            yield from family(int(child.name))


def memory(pid: int) -> float:
    """What a process holds for itself and its share of what it shares [MiB]."""
    try:
        text = Path(f"/proc/{pid}/smaps_rollup").read_text()
    except OSError:
        return 0.0
    return next(int(line.split()[1]) / 1024.0 for line in text.splitlines() if line.startswith("Pss:"))
