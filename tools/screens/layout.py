"""What lies wrong on a page as it stands in the window."""

from __future__ import annotations

from pathlib import Path

from selenium import webdriver

SCRIPT = Path(__file__).with_name("layout.js")


def lies_wrong(driver: webdriver.Chrome) -> list[str]:
    """Sentences: wider than the window, text cut off, text over text; empty where all is well."""
    found: list[str] = driver.execute_script(SCRIPT.read_text("utf-8"))
    return found
