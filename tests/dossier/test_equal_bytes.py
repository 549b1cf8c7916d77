"""Equal findings give the same bytes, drawn anew each time."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from functools import cache

from racewright.dossier.build import Dossier, build
from tests.dossier import sample


@cache
def _full() -> Dossier:
    return build(sample.full())


def test_equal_findings_give_equal_bytes() -> None:
    assert build(sample.full()) == _full()


def test_another_process_with_another_hash_seed_gives_equal_bytes() -> None:
    code = (
        "import hashlib; from tests.dossier import sample; from racewright.dossier.build import build;"
        "d = build(sample.full());"
        "print(hashlib.sha256(d.html).hexdigest(), hashlib.sha256(d.pdf).hexdigest())"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        env={
            **os.environ,
            "PYTHONHASHSEED": "77",
            "PYTHONPATH": os.pathsep.join(p for p in sys.path if p) + os.pathsep + os.getcwd(),
        },
        capture_output=True,
        text=True,
        check=True,
    )
    ours = _full()
    assert done.stdout.split() == [hashlib.sha256(b).hexdigest() for b in (ours.html, ours.pdf)]
