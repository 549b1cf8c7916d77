"""The desk in a real browser: first paint beside an empty page of the kit, and a knob of the machine turned."""

from __future__ import annotations

import json
import socket
import statistics
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from urllib.error import HTTPError, URLError
from urllib.request import urlopen

from selenium import webdriver
from selenium.webdriver.common.by import By
from selenium.webdriver.common.keys import Keys

from racewright.dossier import format as fmt
from tools.screens.browser import browser
from tools.screens.served import desk, environment
from tools.screens.settled import settle, until

MOVES = 50
BURSTS = 10
"""Turns by four steps at once."""
LOADS = 5
EMPTY = """
import sys
from nicegui import ui
ui.run(lambda: ui.label("empty"), port=int(sys.argv[1]), host="127.0.0.1", show=False, reload=False)
"""
_PAINTED = (
    "return performance.getEntriesByType('paint').filter(p => p.name === 'first-contentful-paint')[0]?.startTime"
)
_LISTEN = """
const log = window.figuresLog = [];
let last = "";
const look = () => {
  const told = document.querySelector(".figures")?.innerText || "";
  const soft = [...document.querySelectorAll(".note, .soft")].map((n) => n.innerText).join(" ");
  const now = [told, /being computed|is being solved/.test(soft)].join("|");
  if (now !== last) log.push([performance.now(), told, /being computed|is being solved/.test(soft)]);
  last = now;
};
new MutationObserver(look).observe(document.body, { childList: true, subtree: true, characterData: true });
document.addEventListener("keydown", () => log.push([performance.now(), "key", false]), true);
look();
"""


_ANSWERED = """
const log = window.figuresLog, key = log.findIndex((e) => e[1] === "key");
return key >= 0 && log.slice(key + 1).some((e) => e[1].includes("CP") && !e[2] && !e[1].includes("its band follows"));
"""


@dataclass(frozen=True)
class Turned:
    """Times after a press of a key [s]: first other figures, the converged point, the curve with its band."""

    quick: float
    point: float
    curve: float


def measure(scheme: Path) -> list[tuple[str, str]]:
    """Rows of the table: what, and its figures."""
    rows = [*_paints(scheme)]
    with desk(scheme) as address, browser() as driver:
        driver.get(f"{address.rstrip('/')}/machine")
        settle(driver)
        driver.execute_script(_LISTEN)
        turns = list(_turns(driver, MOVES))
        stale = _bursts(driver, address.rstrip("/"))
    for title, name in (
        ("quick answer after a step of the vanes (aim 0.15 s)", "quick"),
        ("operating point converged (aim 1 s)", "point"),
        ("curve and its band (aim 4 s)", "curve"),
    ):
        found = [getattr(turn, name) for turn in turns]
        text = f"{statistics.median(found):.2f} s, worst {max(found):.2f} s of {len(found)}"
        rows.append((title, text))
    rows.append(("bursts of four steps that end on an older answer (wanted 0)", f"{stale} of {BURSTS}"))
    return rows


def table(rows: list[tuple[str, str]]) -> str:
    """As Markdown."""
    return "| desk | measured |\n|---|---|\n" + "".join(f"| {what} | {said} |\n" for what, said in rows)


def _paints(scheme: Path) -> Iterator[tuple[str, str]]:
    cold, warm = [], []
    for _turn in range(LOADS):
        with desk(scheme) as address, browser() as driver:
            cold.append(_paint(driver, address))
            warm.append(_paint(driver, address))
    empty_cold, empty_warm = [], []
    for _turn in range(LOADS):
        with _empty_page() as address, browser() as driver:
            empty_cold.append(_paint(driver, address))
            empty_warm.append(_paint(driver, address))
    for title, found, empty in (
        ("first paint, new desk and new browser (aim 3 s)", cold, empty_cold),
        ("first paint again (aim 0.8 s)", warm, empty_warm),
    ):
        own, bare = statistics.median(found), statistics.median(empty)
        yield title, f"{own:.2f} s; an empty page of the kit {bare:.2f} s; ratio {own / bare:.1f}"


def _paint(driver: webdriver.Chrome, address: str) -> float:
    """First paint with content of the page, from the start of its loading [s]."""
    driver.get(address)
    begun = time.monotonic()
    while time.monotonic() < begun + 60.0:
        found = driver.execute_script(_PAINTED)
        if found is not None:
            return float(found) / 1000.0
        time.sleep(0.02)
    raise RuntimeError(f"nothing was painted at {address}")


@contextmanager
def _empty_page() -> Iterator[str]:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    address = f"http://127.0.0.1:{port}/"
    with subprocess.Popen(
        [sys.executable, "-c", EMPTY, str(port)], env=environment(), stdout=subprocess.DEVNULL
    ) as kit:
        try:
            begun = time.monotonic()
            while True:
                try:
                    urlopen(address).close()
                    break
                except URLError as fault:
                    if isinstance(fault, HTTPError) or time.monotonic() > begun + 60.0:
                        raise
                    time.sleep(0.05)
            yield address
        finally:
            kit.terminate()


def _turns(driver: webdriver.Chrome, count: int) -> Iterator[Turned]:
    """One step of half a degree after another, every angle for the first time."""
    for turn in range(count):
        if turn == 0:
            _type(driver, "-6 deg")
        elif turn == count // 2:
            _type(driver, "-5.8 deg")
        driver.execute_script("window.figuresLog.length = 0")
        _handle(driver).send_keys(Keys.ARROW_UP)
        until(driver, _ANSWERED)  # the page may lie still before it has heard of the key
        settle(driver)
        yield _read(driver.execute_script("return window.figuresLog"))


def _read(log: list[tuple[float, str, bool]]) -> Turned:
    pressed = next(at for at, told, _estimate in log if told == "key")
    after = [(at, told, estimate) for at, told, estimate in log if at > pressed and told != "key"]
    shown = [(at, told, estimate) for at, told, estimate in after if "CP" in told]
    quick = shown[0][0]
    point = next(at for at, _told, estimate in shown if not estimate)
    curve = next(at for at, told, estimate in shown if not estimate and "its band follows" not in told)
    return Turned(*((at - pressed) / 1000.0 for at in (quick, point, curve)))


def _bursts(driver: webdriver.Chrome, address: str) -> int:
    """How many of the bursts end on figures that are not those of the draft as it stands."""
    stale = 0
    for turn in range(BURSTS):
        driver.execute_script("window.figuresLog.length = 0")
        _handle(driver).send_keys(*[Keys.ARROW_DOWN if turn % 2 else Keys.ARROW_UP] * 4)
        until(driver, _ANSWERED)
        settle(driver)
        with urlopen(f"{address}/api/machine?part=point") as reply:
            value = json.load(reply)["point"]["power_coefficient"]
        shown = driver.execute_script("return document.querySelector('.figures').innerText")
        stale += fmt.number(value, 4) not in shown
    return stale


def _handle(driver: webdriver.Chrome) -> webdriver.remote.webelement.WebElement:
    return driver.find_element(By.CSS_SELECTOR, "[role=slider][aria-label='vanes turned']")


def _type(driver: webdriver.Chrome, text: str) -> None:
    entry = driver.find_element(By.CSS_SELECTOR, "input[aria-label^='vanes turned']")
    entry.send_keys(Keys.CONTROL, "a")
    entry.send_keys(text, Keys.ENTER)
    settle(driver)
