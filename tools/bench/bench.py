"""Speed as medians of five and ratios to two yardsticks of the same run: a table, and docs/proof/bench.md."""

from __future__ import annotations

import os
import platform
import shutil
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "src")]

import racewright.threads  # noqa: E402, F401  (first: pins threads before NumPy loads)

import numpy as np  # noqa: E402  # isort: skip

from racewright.dossier.build import build  # noqa: E402
from racewright.ledger.chain import compute  # noqa: E402
from racewright.ledger.graph import NODES, evaluate, plan  # noqa: E402
from racewright.records.series_csv import read_series  # noqa: E402
from racewright.scheme import load_scheme  # noqa: E402
from racewright.tick import silent  # noqa: E402
from tools.bench import desk_speed, flow_speed  # noqa: E402
from tools.bench.rooms_speed import rooms  # noqa: E402
from tools.proofs.frame import write_minutes  # noqa: E402

TURNS = 5
ORDER = 800
"""Order of the linear system that is the numerical yardstick."""
STEPS = 1_000_000
"""Steps of the plain loop that is the interpreter's yardstick."""
ROWS = 1_000_000
FLOW_HEAD = """## Flow

Processor time of one process, one thread; the array kernels take the same Newton steps through the same equations at
the same points.
"""

DESK_HEAD = """## Desk

On the bundled example in a headless browser on the same machine. Times of paint count from the start of loading,
those of a step from the press of the key to what the page shows.
"""

Job = Callable[[], object]


def times(job: Job, before: Job | None = None) -> tuple[float, float]:
    """Median and spread (largest less smallest) of five runs [s]; `before` is not counted."""
    found = []
    for _turn in range(TURNS):
        if before is not None:
            before()
        start = time.perf_counter()
        job()
        found.append(time.perf_counter() - start)
    return statistics.median(found), max(found) - min(found)


def loop() -> int:
    """A fixed piece of plain Python."""
    total = 0
    for i in range(STEPS):
        total = (total * 31 + i) % 1_000_003
    return total


def commands(folder: Path) -> dict[str, tuple[Job, Job | None]]:
    """Whole commands in processes of their own, with a warm or an emptied cache; kernels are compiled."""
    scheme, cache = str(folder / "demo" / "scheme.toml"), folder / "cache"
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "src"), "RACEWRIGHT_CACHE": str(cache)}

    def run(*arguments: str) -> Job:
        command = [sys.executable, "-m", "racewright", *arguments]
        return lambda: subprocess.run(command, env=environment, check=True, capture_output=True)

    def empty() -> None:
        shutil.rmtree(cache, ignore_errors=True)

    run("new", str(folder / "demo"))()
    run("report", scheme)()
    return {
        "check": (run("check", scheme), None),
        "point, warm": (run("point", scheme), None),
        "report, warm": (run("report", scheme), None),
        "point, cold": (run("point", scheme), empty),
        "report, cold": (run("report", scheme), empty),
    }


def parts(folder: Path) -> dict[str, tuple[Job, Job | None]]:
    """Parts of the work inside one process."""
    loaded = load_scheme(folder / "demo" / "scheme.toml")
    name, case = next(iter(loaded.scheme.case.items()))
    values = evaluate(loaded, name, case)
    given = plan(loaded, name, case).given
    findings = compute(loaded)
    record = folder / "minutes.csv"
    write_minutes(record, ROWS)

    def node(which: str) -> Job:
        upstream = {up: values[up] for up in NODES[which].nodes}
        there = given[which]
        seen = type(there)(there.keys, there.files, upstream, there.seed)
        return lambda: NODES[which].compute(seen, silent)

    def read() -> object:
        return read_series(
            record,
            time_column="date",
            value_column="discharge_m3s",
            unit="m3/s",
            kind="discharge",
            zone="UTC",
            shown_as="minutes.csv",
        )

    return {
        "flow response, 14 loads": (node("flow"), None),
        "map": (node("map"), None),
        "control, three ways": (node("control"), None),
        f"CSV, {ROWS:.0e} rows": (read, None),
        "dossier build": (lambda: build(findings), None),
    }


def main() -> None:
    """Measure, print, write."""
    matrix = np.random.default_rng(1).standard_normal((ORDER, ORDER)) + ORDER * np.eye(ORDER)
    right = np.ones(ORDER)
    solve = times(lambda: np.linalg.solve(matrix, right))
    plain = times(loop)
    rows = [(f"yardstick: linear system of order {ORDER}", *solve), (f"yardstick: plain loop of {STEPS:.0e}", *plain)]
    with TemporaryDirectory() as name:
        folder = Path(name)
        for group in (commands(folder), parts(folder), rooms()):
            for title, (job, before) in group.items():
                rows.append((title, *times(job, before)))
                print(f"{title}: {rows[-1][1]:.3f} s", file=sys.stderr, flush=True)
    head = "| what | median s | spread s | in linear systems | in loops |\n|---|---|---|---|---|\n"
    body = "".join(f"| {t} | {m:.3f} | {s:.3f} | {m / solve[0]:.1f} | {m / plain[0]:.2f} |\n" for t, m, s in rows)
    where = f"Python {platform.python_version()}, NumPy {np.__version__}, {os.cpu_count()} processors, one thread"
    text = f"# Speed\n\nWritten by `make bench`: medians of {TURNS}, and ratios to yardsticks of the run. {where}.\n"
    text += "Commands are whole processes; cold is with an empty cache and compiled kernels.\n\n" + head + body
    print("flow", file=sys.stderr, flush=True)
    flow = flow_speed.table(flow_speed.measure())
    text += "\n" + FLOW_HEAD + "\n" + flow
    print("desk", file=sys.stderr, flush=True)
    with TemporaryDirectory() as name:
        subprocess.run([sys.executable, "-m", "racewright", "new", f"{name}/demo"], check=True, capture_output=True)
        served = desk_speed.table(desk_speed.measure(Path(name) / "demo" / "scheme.toml"))
    text += "\n" + DESK_HEAD + "\n" + served
    print(head + body + "\n" + flow + "\n" + served)
    (ROOT / "docs" / "proof" / "bench.md").write_text(text, "utf-8")


if __name__ == "__main__":
    main()
