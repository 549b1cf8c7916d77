"""A headless browser that reaches nothing but the desk."""

from __future__ import annotations

import json
import shutil
import tempfile
from typing import Any

from selenium import webdriver
from selenium.webdriver.chrome.service import Service

BROWSERS = ("chromium", "chromium-browser", "google-chrome")
FLAGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--enable-unsafe-swiftshader",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    "--hide-scrollbars",
    "--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1 , EXCLUDE localhost",
)


def browser_path() -> str | None:
    """The browser of this machine; None without one and its driver."""
    found = next((path for name in BROWSERS if (path := shutil.which(name))), None)
    return found if shutil.which("chromedriver") else None


def start(width: int, height: int, *, dark: bool = False) -> webdriver.Chrome:
    """A fresh browser with a window of that size [px]."""
    options = webdriver.ChromeOptions()
    options.binary_location = browser_path() or ""
    for flag in (*FLAGS, f"--user-data-dir={tempfile.mkdtemp(prefix='racewright-browser-')}"):
        options.add_argument(flag)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    driver = webdriver.Chrome(options, Service(shutil.which("chromedriver")))
    size = {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 600}
    driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", size)
    scheme = [{"name": "prefers-color-scheme", "value": "dark" if dark else "light"}]
    driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": scheme})
    return driver


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
    return [e["message"] for e in driver.get_log("browser") if e["level"] in ("SEVERE", "WARNING")]
