"""Waits for a page by what it shows, never by the clock."""

from __future__ import annotations

from typing import Any

from selenium import webdriver
from selenium.webdriver.support.ui import WebDriverWait

LONGEST = 240.0
"""Longest wait for an answer [s]: a slow machine may compute the whole example for it."""
LOOK_EVERY = 0.05
"""Time between looks [s]."""

_READY = """
const page = document.querySelector("#page");
if (!page || page.getAttribute("aria-busy") === "true" || document.fonts.status !== "loaded") return null;
if (!page.querySelector(".body > *, .notice[role=alert]")) return null;
if ([...document.querySelectorAll(".waiting")].some((e) => e.offsetParent)) return null;
if ([...document.querySelectorAll("link[rel=stylesheet]")].some((e) => !e.sheet)) return null;
const bare = (e) => e.offsetParent && !e.querySelector(".main-svg");
if ([...document.querySelectorAll(".chart")].some(bare)) return null;
const moves = (a) => a.playState === "running" && a.effect.getComputedTiming().endTime < 10000;
if (document.getAnimations().some(moves)) return null;
const box = page.getBoundingClientRect();
return [box.width, box.height, document.querySelectorAll("*").length].join(" ");
"""
"""How the page lies once nothing is awaited, drawn or moving any more; null before."""

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

    def still(_driver: webdriver.Chrome) -> bool:
        driver.execute_async_script(_FRAMES)
        last, before[0] = before[0], driver.execute_script(_READY)
        return before[0] is not None and before[0] == last

    WebDriverWait(driver, longest, poll_frequency=LOOK_EVERY).until(still, "the page did not come to rest")
