"""Run as a program: one process of many that use one cache folder; prints the digests of its answers."""

from __future__ import annotations

import hashlib
import json
import random
import sys
from pathlib import Path

import racewright.threads  # noqa: F401  (first: pins threads before NumPy loads)
from racewright.ledger.classes import CLASSES
from racewright.ledger.codec import encode
from racewright.ledger.graph import evaluate
from racewright.ledger.store import Store
from racewright.scheme import load_scheme

CHEAP = ("site", "bed", "water")


def main(scheme: Path, cache: Path, number: int, turns: int) -> list[str]:
    """Every few turns the cache is cleared, or its cap is so small that it is trimmed."""
    loaded = load_scheme(scheme)
    name, case = next(iter(loaded.scheme.case.items()))
    chance = random.Random(number)
    digests = []
    for _turn in range(turns):
        store = Store(cache, CLASSES, largest=chance.choice((1, 20_000, 10**8)))
        values = evaluate(loaded, name, case, wanted=CHEAP, store=store)
        whole = b"".join(encode(values[node], node) for node in CHEAP)
        digests.append(hashlib.sha256(whole).hexdigest())
        if chance.random() < 0.3:
            store.clear()
    return digests


if __name__ == "__main__":
    sys.stdout.write(
        json.dumps(main(Path(sys.argv[1]), Path(sys.argv[2]), int(sys.argv[3]), int(sys.argv[4]))) + "\n"
    )
