"""Pictures of every page of the desk: `python tools/screens/shoot.py OUT [SCHEME.toml] [PAGE ...]`.

Without a scheme each page shows the bundled example that has most to show there.
"""

from __future__ import annotations

import io
import sys
from collections.abc import Sequence
from pathlib import Path
from tempfile import TemporaryDirectory

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from PIL import Image
from selenium import webdriver

from racewright.cli.new import copy_example
from racewright.desk.seam import Page, all_pages
from tools.screens.browser import PHONE, SIZES, browser, dress
from tools.screens.served import desk
from tools.screens.settled import settle

LONGEST = {"wide": 1800, "phone": 2400}
"""Tallest picture [px]: a page may go on below."""
COLOURS = 96
"""Colours of a picture: flat ones, and the edges of letters; fewer bytes than all of them."""
EXAMPLES = {"trials": "model_test"}
"""Bundled example of a page; the others show the first."""
FIRST = "river_unit"
SEEN = {"name": "racewright_guided", "value": "seen"}
"""So that the offer of a first visit is not in the pictures."""


def main(out: Path, scheme: Path | None, names: Sequence[str]) -> None:
    """Shoot pages at both sizes, light and dark, from the top as far as a picture goes."""
    out.mkdir(parents=True, exist_ok=True)
    pages = [page for page in all_pages() if not names or page.name in names]
    if scheme is not None:
        _shoot_all(scheme, pages, out)
        return
    for name in dict.fromkeys(EXAMPLES.get(page.name, FIRST) for page in pages):
        with TemporaryDirectory() as made:
            copy_example(Path(made) / "demo", name=name, force=False, as_json=False)
            own = [page for page in pages if EXAMPLES.get(page.name, FIRST) == name]
            _shoot_all(Path(made) / "demo" / "scheme.toml", own, out)


def _shoot_all(scheme: Path, pages: Sequence[Page], out: Path) -> None:
    with desk(scheme) as address, browser() as driver:
        driver.get(address)
        driver.add_cookie(SEEN)
        for page in pages:
            for size in SIZES:
                for dark in (False, True):
                    picture = _shoot(driver, address.rstrip("/") + page.address, size, dark=dark)
                    path = out / f"{page.name}-{size[0]}{'-dark' if dark else ''}.png"
                    path.write_bytes(small(picture))
                    print(f"{path} {path.stat().st_size / 1e3:.0f} kB")


def _shoot(driver: webdriver.Chrome, address: str, size: tuple[int, int], *, dark: bool) -> bytes:
    """The page in a window as tall as itself, or as a picture may be."""
    width, height = size
    dress(driver, width, height, dark=dark)
    driver.get(address)
    settle(driver)
    tall = int(driver.execute_script("return document.documentElement.scrollHeight"))
    dress(driver, width, max(height, min(tall, LONGEST["phone" if width < PHONE else "wide"])), dark=dark)
    settle(driver)
    found: bytes = driver.get_screenshot_as_png()
    return found


def small(picture: bytes) -> bytes:
    """The same picture in few colours."""
    out = io.BytesIO()
    with Image.open(io.BytesIO(picture)) as given:
        given.convert("RGB").quantize(COLOURS, Image.Quantize.MEDIANCUT, dither=Image.Dither.NONE).save(
            out, "PNG", optimize=True
        )
    return out.getvalue()


if __name__ == "__main__":
    folder, *rest = sys.argv[1:] or ["screenshots"]
    scheme = Path(rest.pop(0)) if rest and rest[0].endswith(".toml") else None
    main(Path(folder), scheme, rest)
