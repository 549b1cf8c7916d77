"""Pictures of every page of the desk: `python tools/screens/shoot.py OUT [SCHEME] [PAGE ...]`."""

from __future__ import annotations

import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory

from selenium import webdriver

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
from racewright.cli.new import copy_example
from racewright.desk.seam import all_pages
from tools.screens.browser import start
from tools.screens.served import desk

SIZES = ((1280, 800), (390, 844))
LONGEST = 9000
"""Tallest picture [px]."""


def main(out: Path, scheme: Path, names: list[str]) -> None:
    """Shoot pages at both sizes, light and dark, from top to bottom."""
    out.mkdir(parents=True, exist_ok=True)
    with desk(scheme) as address:
        for width, height in SIZES:
            for dark in (False, True):
                driver = start(width, height, dark=dark)
                for page in all_pages():
                    if not names or page.name in names:
                        driver.get(address.rstrip("/") + page.address)
                        wait_for(driver)
                        _shoot(driver, out / f"{page.name}-{width}{'-dark' if dark else ''}.png", width, height)
                driver.quit()


def wait_for(driver: webdriver.Chrome, longest: float = 240.0) -> None:
    """Until the page shows its answer, and its charts are drawn."""
    ready = (
        "return document.querySelectorAll('main .body > *').length > 0"
        " && ![...document.querySelectorAll('.waiting')].some(e => e.offsetParent)"
        " && [...document.querySelectorAll('.chart')].every(e => e.querySelector('.main-svg'))"
    )
    end = time.monotonic() + longest
    while not driver.execute_script(ready):
        if time.monotonic() > end:
            raise TimeoutError("the page did not show its answer")
        time.sleep(0.1)
    time.sleep(0.5)


def _shoot(driver: webdriver.Chrome, path: Path, width: int, height: int) -> None:
    tall = int(driver.execute_script("return document.documentElement.scrollHeight"))
    size = {"deviceScaleFactor": 1, "mobile": width < 600, "width": width}
    driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {**size, "height": min(max(tall, height), LONGEST)})
    time.sleep(0.4)
    driver.save_screenshot(str(path))
    driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {**size, "height": height})
    print(path)


if __name__ == "__main__":
    folder, *rest = sys.argv[1:] or ["screenshots"]
    if rest and rest[0].endswith(".toml"):
        main(Path(folder), Path(rest[0]), rest[1:])
    else:
        with TemporaryDirectory() as made:
            copy_example(Path(made) / "demo", name="river_unit", force=False, as_json=False)
            main(Path(folder), Path(made) / "demo" / "scheme.toml", rest)
