"""The example's place in other dresses: spot speeds, a record of speed, a histogram, a stated rating."""

from __future__ import annotations

import math
import re
import shutil
from collections.abc import Mapping
from datetime import date, timedelta
from functools import lru_cache
from pathlib import Path
from tempfile import mkdtemp

from racewright.ledger.chain import compute
from racewright.ledger.classes import CLASSES
from racewright.ledger.findings import Findings
from racewright.ledger.store import Store, cache_folder
from racewright.scheme import load_scheme
from tests.ledger.common import EXAMPLE

TEXT = (EXAMPLE / "scheme.toml").read_text("utf-8")
_BEFORE, _REST = TEXT.split("[place.otter_bend.record]", 1)
_PLACE, _AFTER = _REST.split("[place.otter_bend.water]", 1)
_AFTER = "[place.otter_bend.water]" + _AFTER
_BARE = _BEFORE.replace("speed_factor = 1.3 ", "#").replace("profile_exponent = 6", 'depth = "4.5 m"')

SPOTS = """
[place.otter_bend.spot.spring]
date = "2025-05-14"
speed = "2.9 m/s"
flow = "high"

[place.otter_bend.spot.winter]
date = "2026-01-14"
speed = "1.4 m/s"
flow = "low"

"""
SPEED = """
[place.otter_bend.record]
file = "speed.csv"
kind = "speed"
value_column = "speed"
unit = "m/s"

[place.otter_bend.season.closed.ice]
first = "12-15"
last = "03-31"

"""
HISTOGRAM = """
[place.otter_bend.record]
file = "shares.csv"
kind = "histogram"
value_column = "share"
unit = "m/s"

"""
FILES = {
    "shares.csv": "speed_from,speed_to,share\n0,0.5,0.1\n0.5,1,0.2\n1,1.5,0.3\n1.5,2,0.25\n2,2.5,0.15\n",
    "speed.csv": "date,speed\n"
    + "".join(
        f"{date(2021, 1, 1) + timedelta(d)},{1.9 + 0.9 * math.sin((d - 80) / 58.1):.3f}\n" for d in range(1095)
    ),
}

SCHEMES: Mapping[str, str] = {
    "gaugings": TEXT,
    "fitted zero": TEXT.replace("zero_level = ", "#"),
    "rating": re.sub(
        r"\[place\.otter_bend\.gaugings\].*?\n\n",
        '[place.otter_bend.rating]\ncoefficient = 6.4\nzero_level = "0.3 m"\nexponent = 2.32\n\n',
        TEXT,
        flags=re.DOTALL,
    ),
    "no season": re.sub(r"\[place\.otter_bend\.season.*?\n\n", "", TEXT, flags=re.DOTALL),
    "four": TEXT.replace("count = 1\n", 'count = 4\nspacing = "12 m"\n'),
    "spots": _BARE + SPOTS + _AFTER,
    "speed": _BARE + SPEED + _AFTER,
    "histogram": _BARE + HISTOGRAM + _AFTER,
}
"""Whole schemes by name."""


def written(folder: Path, text: str) -> Path:
    """A scheme with the example's data files and those of the other dresses."""
    shutil.copytree(EXAMPLE, folder, dirs_exist_ok=True)
    for name, content in FILES.items():
        (folder / name).write_text(content, "utf-8")
    path = folder / "scheme.toml"
    path.write_text(text, "utf-8")
    return path


@lru_cache(maxsize=16)
def findings_of(name: str) -> Findings:
    """Findings of a dress, computed once, with the suite's cache."""
    folder = Path(mkdtemp(prefix="racewright-test-"))
    try:
        store = Store(cache_folder(), CLASSES)
        return compute(load_scheme(written(folder, SCHEMES[name])), store=store)
    finally:
        shutil.rmtree(folder)
