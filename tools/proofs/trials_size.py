"""A long logger file: import with flags and windows beside a plain read, reduction again from the store, memory."""

from __future__ import annotations

import cProfile
import json
import math
import os
import pstats
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "src")]

import numpy as np  # noqa: E402

RATE = 100.0
NAMES = ("time", "flow_a", "flow_b", "torque", "speed", "thrust", "level", "warmth")
"""Eight columns: the clock and seven channels."""
_BLOCK = 250_000

SCHEME = """format = 2
title = "a long record"
[trials.long.rig]
width = "3 m"
depth = "3 m"
axis_height = "1.5 m"
surface = "free"
radius_error = 0.001
[trials.long.logger]
rate = "100 Hz"
[trials.long.runs.long]
file = "long.csv"
[trials.long.runs.long.tares.before]
start = "0 s"
end = "60 s"
"""
_MEASURES = {
    "flow_a": "speed",
    "flow_b": "speed",
    "torque": "torque",
    "speed": "rotor_speed",
    "thrust": "thrust",
    "level": "level",
    "warmth": "temperature",
}


def scheme_text(machine: str) -> str:
    """The campaign of one long run, with the machine tables of the model example."""
    parts = [SCHEME.replace("[trials", machine + "\n[trials", 1)]
    for name, role in _MEASURES.items():
        tared = "tared = true\n" if role in ("torque", "thrust") else ""
        parts.append(
            f'[trials.long.channels.{name}]\ncolumn = "{name}"\nmeasures = "{role}"\nunit = "V"\nstuck = 50\n'
            f"step = 0.0001\n{tared}[trials.long.channels.{name}.calibration]\ncoefficients = [0.0, 1.0]\n"
            "covariance = [0.0, 0.0, 0.0, 1e-8]\nreference = 0.002\n"
        )
    return "\n".join([*parts, '[case.long]\nmachine = "model"\ntrials = "long"\n'])


def write_log(path: Path, rows: int, seed: int = 4) -> None:
    """An invented log of so many rows: one minute of tare, then steady running with spikes and blanks."""
    import pyarrow as pa
    import pyarrow.csv as pacsv

    rng = np.random.default_rng(seed)
    with path.open("wb") as stream:
        stream.write((",".join(NAMES) + "\n").encode())
        for first in range(0, rows, _BLOCK):
            count = min(_BLOCK, rows - first)
            at = (first + np.arange(count)) / RATE
            runs = (at >= 60.0).astype(float)
            ripple = np.sin(2.0 * math.pi * 16.0 * at)
            columns = [
                np.round(at, 2),
                np.round(runs * (2.4 + 0.08 * rng.standard_normal(count)), 4),
                np.round(runs * (2.4 + 0.08 * rng.standard_normal(count)), 4),
                np.round(runs * (22.0 + 0.6 * ripple + 0.5 * rng.standard_normal(count)), 4),
                np.round(runs * (23.4 + 0.02 * rng.standard_normal(count)), 4),
                np.round(runs * (300.0 + 4.0 * rng.standard_normal(count)), 3),
                np.round(3.0 + 0.002 * rng.standard_normal(count), 4),
                np.round(287.15 + 0.001 * rng.standard_normal(count), 4),
            ]
            columns[3][rng.integers(0, count, 20)] += 15.0
            arrays = [pa.array(c) for c in columns]
            arrays[1] = pa.array(columns[1], mask=rng.random(count) < 1e-4)
            table = pa.Table.from_arrays(arrays, list(NAMES))
            pacsv.write_csv(table, stream, pacsv.WriteOptions(include_header=False, quoting_style="none"))


@dataclass(frozen=True)
class Long:
    """Seconds and bytes of one size of log, the machine's load meanwhile, and where the import's time goes."""

    rows: int
    plain: float
    taken: float
    reduced: float
    from_text: float
    peak: int
    readings: int
    load: float
    stages: str


_CHILD = """
import sys, time, json, resource
sys.path[:0] = [{root!r}, {src!r}]
import racewright.threads
from pathlib import Path
from tools.proofs import trials_size
print(json.dumps(trials_size.run({what!r}, Path({folder!r}))))
"""


def run(what: str, folder: Path) -> dict[str, float]:
    """One step in this process: its seconds, its largest memory."""
    import resource

    start = time.perf_counter()
    count = 0.0
    if what == "plain":
        import pandas

        start = time.perf_counter()
        count = float(len(pandas.read_csv(folder / "long.csv")))
    else:
        count, start = _ours(what, folder)
    seconds = time.perf_counter() - start
    return {"seconds": seconds, "peak": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024.0, "count": count}


def _ours(what: str, folder: Path) -> tuple[float, float]:
    from racewright.cli.trials_case import trials_case
    from racewright.ledger.graph import evaluate
    from racewright.ledger.nodes_trials import logged
    from racewright.ledger.trials_kept import campaign_folder
    from racewright.ledger.trials_store import TrialRuns
    from racewright.ledger.trials_things import channels_of, rig_of, settings_of, tares_of, tested
    from racewright.records.campaign.store import open_campaign
    from racewright.scheme import load_scheme
    from racewright.tick import silent
    from racewright.trials.reduce import reduce

    loaded = load_scheme(folder / "scheme.toml")
    name, case, roles = trials_case(loaded, None)
    values = evaluate(loaded, name, case, wanted=("rows", "flow"))
    model = tested(values["rows"], values["flow"])
    _warm()
    start = time.perf_counter()
    if what == "text":
        keys = roles.plain("trials")
        channels, weights, _remarks = channels_of(keys["channels"], keys["logger"], {})
        table = keys["runs"]["long"]
        found = reduce(
            logged(folder / "long.csv", keys["channels"], keys["logger"], table, [c.name for c in channels]),
            channels,
            rig_of(keys["rig"], table, model),
            tares=tares_of(table),
            weights=weights,
            settings=settings_of(keys["reduction"]),
        )
        return float(len(found.readings)), start
    with open_campaign(campaign_folder(loaded, "long"), make=True) as campaign:
        runs = TrialRuns(loaded, roles, campaign, model)
        if what == "profile":
            print(_profile(lambda: runs.take_in(None, silent)), file=sys.stderr)
            return math.nan, start
        if what == "import":
            reduced = runs.take_in(None, silent)[0].reduced
        else:
            reduced = runs.reduce(None, silent, anew=True)[0]
        assert reduced.reduction is not None
        return float(len(reduced.reduction.readings)), start


STAGES = {
    "waiting for the text": ("acquire",),
    "flags": ("flag_blocks",),
    "cells": ("channel_sums", "shaft_sums"),
    "windows": ("_walk", "readings"),
    "store": ("put_cells", "put_windows", "put_reduction", "savez", "fsync", "write_table"),
}
"""Functions whose time, callees counted, makes up a stage of an import on the main thread."""


def _profile(work: Callable[[], object]) -> str:
    """Seconds of the main thread by stage, and the processor's seconds of all threads, under a profiler."""
    profile, start, before = cProfile.Profile(), time.perf_counter(), time.process_time()
    profile.runcall(work)
    whole, spent = time.perf_counter() - start, time.process_time() - before
    found = dict.fromkeys(STAGES, 0.0)
    for (_file, _line, name), row in pstats.Stats(profile).stats.items():  # type: ignore[attr-defined]
        bare = (
            name.split(" of ")[0].split("'")[1] if name.startswith("<method '") else name.strip("<>").split(".")[-1]
        )
        for stage, names in STAGES.items():
            found[stage] += row[3] if bare in names else 0.0
    found["rows evened, blocks cut and the rest"] = whole - sum(found.values())
    told = ", ".join(f"{stage} {seconds:.1f}" for stage, seconds in found.items())
    return f"under a profiler {whole:.1f} s, {spent:.1f} s of processor: {told}"


def _warm() -> None:
    """Kernels compiled before the clock runs."""
    from racewright.tick import silent  # noqa: F401
    from racewright.trials.reduce import reduce
    from racewright.trials.synthetic import synthetic_campaign
    from racewright.trials.synthetic_plan import Plan, Stretch, invented_sensors

    small = synthetic_campaign(
        Plan(stretches=(Stretch(30.0, tare=True), Stretch(80.0, 2.0)), sensors=invented_sensors(20.0)), 1
    )
    reduce(small.chunks(), small.channels, small.rig, tares=small.tares)


def _child(what: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """`run` in a process of its own, so that memory is that of the step alone."""
    code = _CHILD.format(root=str(ROOT), src=str(ROOT / "src"), what=what, folder=str(folder))
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    if done.returncode:
        raise RuntimeError(done.stderr[-2000:])
    return done


def step(what: str, folder: Path) -> dict[str, float]:
    """Seconds, largest memory and count of one step."""
    answer: dict[str, float] = json.loads(_child(what, folder).stdout.splitlines()[-1])
    return answer


def long_log(rows: int, repeats: int = 1, most: float = math.inf) -> Long:
    """All steps on one log, the least of `repeats` each; the stages of an import over `most` plain reads."""
    machine = _machine_tables()
    with tempfile.TemporaryDirectory(dir=os.environ.get("RACEWRIGHT_PROOF_DIR")) as made:
        folder = Path(made)
        (folder / "scheme.toml").write_text(scheme_text(machine), "utf-8")
        write_log(folder / "long.csv", rows)
        found: dict[str, list[dict[str, float]]] = {"plain": [], "text": [], "import": [], "reduce": []}
        for _repeat in range(repeats):  # in turns: a machine is not equally fast all the time
            shutil.rmtree(folder / "campaign_long", ignore_errors=True)
            for what, steps in found.items():
                steps.append(step(what, folder))
        plain, text, imported, reduced = (min(one["seconds"] for one in steps) for steps in found.values())
        peak = max(one["peak"] for one in (*found["import"], *found["reduce"]))
        load, stages = os.getloadavg()[0], ""
        if imported > most * plain:
            shutil.rmtree(folder / "campaign_long")
            stages = _child("profile", folder).stderr.strip().splitlines()[-1]
        readings = int(found["import"][0]["count"])
        return Long(rows, plain, imported, reduced, text, int(peak), readings, load, stages)


def _machine_tables() -> str:
    from importlib import resources

    text = (resources.files("racewright") / "examples" / "model_test" / "scheme.toml").read_text("utf-8")
    whole = text[text.index("[machine.model]") : text.index("[trials.flume]")]
    start = whole.index("[machine.model.rotor.as_built]")
    return whole[:start] + whole[whole.index("[machine.model.design]") :]


if __name__ == "__main__":
    print(long_log(int(float(sys.argv[1]))))
