"""A headless browser that reaches nothing but the desk."""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from tempfile import TemporaryDirectory
from typing import Any

os.environ.update(SE_OFFLINE="true", SE_AVOID_STATS="true")

from selenium import webdriver
from selenium.webdriver.chrome.service import Service

BROWSERS = ("chromium", "chromium-browser", "google-chrome")
FLAGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--enable-unsafe-swiftshader",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    "--hide-scrollbars",
    "--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1 , EXCLUDE localhost",
)
PHONE = 600
"""Narrower windows are shown as a phone's [px]."""
SIZES = ((1280, 800), (390, 844))
"""Windows that every page is tried in: width and height [px]."""
NO_CARD = "GPU stall due to ReadPixels"
"""What a browser without a graphics card says of its own drawing."""


def browser_path() -> str | None:
    """The browser of this machine; None without one and its driver."""
    found = next((path for name in BROWSERS if (path := shutil.which(name))), None)
    return found if shutil.which("chromedriver") else None


@contextmanager
def browser(width: int = 1280, height: int = 800, *, dark: bool = False) -> Iterator[webdriver.Chrome]:
    """A fresh browser with a window of that size [px]; its profile goes with it."""
    with TemporaryDirectory(prefix="racewright-browser-", ignore_cleanup_errors=True) as profile:
        options = webdriver.ChromeOptions()
        options.binary_location = browser_path() or ""
        for flag in (*FLAGS, f"--user-data-dir={profile}"):
            options.add_argument(flag)
        options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
        driver = webdriver.Chrome(options, Service(shutil.which("chromedriver")))
        try:
            driver.set_script_timeout(120)
            dress(driver, width, height, dark=dark)
            yield driver
        finally:
            driver.quit()


def dress(driver: webdriver.Chrome, width: int, height: int, *, dark: bool = False) -> None:
    """Give the window another size [px] and the system another light; the page that stands follows."""
    size = {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < PHONE}
    driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", size)
    driver.execute_cdp_cmd("Emulation.setTouchEmulationEnabled", {"enabled": width < PHONE})
    features = [
        {"name": "prefers-color-scheme", "value": "dark" if dark else "light"},
        {"name": "prefers-reduced-motion", "value": "reduce"},
    ]
    driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": features})


def requests(driver: webdriver.Chrome) -> list[str]:
    """Addresses that pages asked for since the last call, by the browser's own events."""
    found = []
    for entry in driver.get_log("performance"):
        message: dict[str, Any] = json.loads(entry["message"])["message"]
        if message["method"] == "Network.requestWillBeSent":
            found.append(message["params"]["request"]["url"])
        if message["method"] == "Network.webSocketCreated":
            found.append(message["params"]["url"])
    return [url for url in found if not url.startswith(("chrome:", "data:", "blob:", "about:"))]


def complaints(driver: webdriver.Chrome) -> list[str]:
    """What the browser's console said since the last call, notes left out."""
    told = [e["message"] for e in driver.get_log("browser") if e["level"] in ("SEVERE", "WARNING")]
    return [message for message in told if NO_CARD not in message]
