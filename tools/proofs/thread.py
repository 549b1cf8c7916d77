"""The thread: a real record in, a dossier out."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from tools.proofs.line import ROOT, Line, Measured, by_tests


def fresh_clone() -> Measured:
    """Clone to an empty folder, run the two commands with nothing beside it."""
    environment = {
        k: v for k, v in os.environ.items() if k not in ("PYTHONPATH", "VIRTUAL_ENV", "MAKEFLAGS", "MAKELEVEL")
    }
    with TemporaryDirectory() as folder:
        clone = Path(folder) / "clone"
        subprocess.run(["git", "clone", "-q", str(ROOT), str(clone)], check=True)
        demo = subprocess.run(
            ["make", "demo"], cwd=clone, env=environment, capture_output=True, text=True, check=False
        )
        named = re.findall(r"Dossier \((?:HTML|PDF)\):\s+(\S+)", demo.stdout + demo.stderr)
        stand = [name for name in named if (clone / name).stat().st_size > 10_000] if demo.returncode == 0 else []
        tests = subprocess.run(
            ["make", "test"], cwd=clone, env=environment, capture_output=True, text=True, check=False
        )
        closing = next(
            (x for x in reversed(tests.stdout.splitlines()) if "passed" in x or "failed" in x), "no result"
        )
    text = f"make demo exit {demo.returncode}, names {', '.join(stand) or 'nothing'}; make test: {closing}"
    return Measured(text, len(stand) == 2 and tests.returncode == 0)


def two_dossiers() -> Measured:
    """The bundled example and the public record in an invented reach."""
    said = []
    ok = True
    with TemporaryDirectory() as folder:
        subprocess.run([sys.executable, "-m", "racewright", "new", f"{folder}/demo"], check=True, capture_output=True)
        for name, scheme in (
            ("example", f"{folder}/demo/scheme.toml"),
            ("two-year record", str(ROOT / "tests/external/data/fish_river_scheme.toml")),
        ):
            done = subprocess.run(
                [sys.executable, "-m", "racewright", "report", scheme, "--out", f"{folder}/{name}", "--json"],
                capture_output=True,
                text=True,
                check=False,
            )
            ok = ok and done.returncode == 0
            if done.returncode:
                said.append(f"{name}: exit {done.returncode}")
                continue
            answer = json.loads(done.stdout)
            energy = answer["energy"]["total_J"]
            low, mid, high = (energy[k] / 3.6e9 for k in ("low", "value", "high"))
            latest = Path(folder) / name / "latest"
            page = (latest / "dossier.html").read_text("utf-8")
            ok = ok and "invented" in page and (latest / "dossier.pdf").stat().st_size > 10_000
            said.append(f"{name}: {mid:.1f} MWh/yr ({low:.1f} to {high:.1f}), {len(answer['remarks'])} remarks")
    return Measured("; ".join(said), ok)


LINES = [
    Line("thread-1", "fresh clone: make demo names an HTML and a PDF dossier; make test passes", fresh_clone, 10),
    Line("thread-2", "two inputs each give a dossier; the invented parts are said on page one", two_dossiers),
    Line("thread-3", "signs written down before the run hold", by_tests("tests/ledger/test_signs.py")),
    Line("thread-4", "outside checks, each marked with source, status, tolerance", by_tests("tests/external"), 3),
    Line(
        "thread-5",
        "same scheme twice: equal JSON outside provenance; faults: one message, file and key, exit 2, no traceback",
        by_tests("tests/cli/test_commands.py", "tests/scheme"),
        3,
    ),
    Line(
        "thread-6",
        "every dossier page looked at as a picture",
        lambda: Measured(
            "by eye; what was seen and what not stands in docs/proof/looked_at.md",
            (ROOT / "docs/proof/looked_at.md").exists(),
        ),
    ),
]
