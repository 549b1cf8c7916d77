"""Waits for a page by what it shows, never by the clock."""

from __future__ import annotations

from typing import Any

from selenium import webdriver
from selenium.common.exceptions import TimeoutException
from selenium.webdriver.support.ui import WebDriverWait

LONGEST = 240.0
"""Longest wait for an answer [s]: a slow machine may compute the whole example for it."""
LOOK_EVERY = 0.05
"""Time between looks [s]."""

_LIES = """
const page = document.querySelector("#page");
if (!page) return [null, "no page"];
const bare = (e) => e.offsetParent && !e.querySelector(".main-svg");
const moves = (a) => a.playState === "running" && a.effect.getComputedTiming().endTime < 10000;
const named = (found) => [...found].map((e) => e.outerHTML.slice(0, 120)).slice(0, 3).join(" | ");
const open = [
  ["busy", page.getAttribute("aria-busy") === "true" ? [page] : []],
  ["fonts loading", document.fonts.status !== "loaded" ? [page] : []],
  ["empty", page.querySelector(".body > *, .notice[role=alert]") ? [] : [page]],
  ["waiting", [...document.querySelectorAll(".waiting")].filter((e) => e.offsetParent)],
  ["no style", [...document.querySelectorAll("link[rel=stylesheet]")].filter((e) => !e.sheet)],
  ["chart without drawing", [...document.querySelectorAll(".chart")].filter(bare)],
  ["moving", document.getAnimations().filter(moves).map((a) => a.effect.target)],
].filter((found) => found[1].length);
if (open.length) return [null, open.map((found) => found[0] + ": " + named(found[1])).join("; ")];
const box = page.getBoundingClientRect();
return [[box.width, box.height, document.querySelectorAll("*").length].join(" "), "never twice alike"];
"""
"""How the page lies once nothing is awaited, drawn or moving any more, null before; and what is awaited."""

_FRAMES = "const done = arguments[0]; requestAnimationFrame(() => requestAnimationFrame(() => done(true)));"


def until(driver: webdriver.Chrome, script: str, *arguments: Any, longest: float = LONGEST) -> Any:
    """What a script of the page returns, once that is true.

    Raises
    ------
    TimeoutException
        It was not within `longest` seconds.
    """
    wait = WebDriverWait(driver, longest, poll_frequency=LOOK_EVERY)
    return wait.until(lambda d: d.execute_script(script, *arguments), f"never true: {script.strip()[:300]}")


def settle(driver: webdriver.Chrome, longest: float = LONGEST) -> None:
    """Until the page shows its answer and lies still from one frame to the next but one."""
    before: list[Any] = [None]
    open_still: list[str] = [""]

    def still(_driver: webdriver.Chrome) -> bool:
        driver.execute_async_script(_FRAMES)
        last = before[0]
        before[0], open_still[0] = driver.execute_script(_LIES)
        return before[0] is not None and before[0] == last

    try:
        WebDriverWait(driver, longest, poll_frequency=LOOK_EVERY).until(still)
    except TimeoutException:
        raise TimeoutException(f"{driver.current_url} did not come to rest: {open_still[0]}") from None
