"""Imports and reductions killed at random moments: what the store holds then, and whether a rerun completes."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import pyarrow.parquet as pq

from racewright.records.campaign.store import CELLS, RAW, Campaign, open_campaign
from racewright.records.campaign.window_file import kept_found
from tests.ledger.model_example import copied

_CHILD = """
import racewright.threads
import sys
from pathlib import Path
from racewright.cli.trials_case import trial_runs, trials_case
from racewright.ledger.trials_kept import campaign_folder
from racewright.records.campaign.store import open_campaign
from racewright.scheme import load_scheme
from racewright.tick import silent

loaded = load_scheme(Path(sys.argv[1]))
name, case, roles = trials_case(loaded, None)
with open_campaign(campaign_folder(loaded, "flume"), make=True) as campaign:
    runs = trial_runs(loaded, name, case, roles, campaign, silent)
    print("begin", flush=True)
    for what, do in (("import", runs.take_in), ("reduce", lambda run, tick: runs.reduce(run, tick, anew=True))):
        for run in ("narrow", "loads", "weed"):
            do(run, silent)
            print("done", what, run, flush=True)
print("end", flush=True)
"""


@dataclass(frozen=True)
class Killed:
    """What became of some kills.

    Attributes
    ----------
    kills, at_work : int
        Kills, and those that met the child between its begin and its end.
    faults : tuple of str
        What a reopened store was wrong in; empty when all is well.
    """

    kills: int
    at_work: int
    faults: tuple[str, ...]


def killed(folder: Path, kills: int, seed: int = 5) -> Killed:
    """Kill -9 so often, each time on a store that the kill before has left or on a new one by turns."""
    scheme = copied(folder)
    store = scheme.parent / "campaign_flume"
    whole, wanted = _timed(scheme), _content(store)
    rng = np.random.default_rng(seed)
    faults: list[str] = []
    at_work = 0
    for k in range(kills):
        if k % 3 == 0:
            shutil.rmtree(store, ignore_errors=True)
        told = _run(scheme, float(rng.uniform(0.0, whole)))
        at_work += "begin" in told and "end" not in told
        faults += [f"kill {k}: {fault}" for fault in _faults(store, told)]
    _run(scheme, None)
    again = _content(store)
    if again != wanted:
        faults.append("after a rerun the store holds other readings, flags or runs than an undisturbed one")
    return Killed(kills, at_work, tuple(faults))


def _timed(scheme: Path) -> float:
    """Seconds from the child's begin to its end, undisturbed; caches are warm afterwards."""
    _run(scheme, None)
    shutil.rmtree(scheme.parent / "campaign_flume")
    child = _child(scheme)
    assert child.stdout is not None
    child.stdout.readline()
    start = time.monotonic()
    child.communicate()
    return time.monotonic() - start


def _child(scheme: Path) -> subprocess.Popen[str]:
    return subprocess.Popen([sys.executable, "-c", _CHILD, str(scheme)], stdout=subprocess.PIPE, text=True)


def _run(scheme: Path, after: float | None) -> str:
    """The child's words; killed so long after its begin, or left alone."""
    child = _child(scheme)
    assert child.stdout is not None
    first = child.stdout.readline()
    if after is not None:
        time.sleep(after)
        os.kill(child.pid, signal.SIGKILL)
    rest, _err = child.communicate()
    return first + rest


def _faults(store: Path, told: str) -> list[str]:
    """What is wrong with a reopened store."""
    faults = []
    with open_campaign(store) as campaign:
        runs = {run.run: run for run in campaign.runs()}
        for line in told.splitlines():
            if line.startswith("done import") and line.split()[2] not in runs:
                faults.append(f"{line!r} was said and the run is not there")
            if line.startswith("done") and campaign.recipe(line.split()[2]) is None:
                faults.append(f"{line!r} was said and the reduction is not there")
        for run in runs.values():
            if pq.read_metadata(campaign.raw_path(run)).num_rows != run.rows:
                faults.append(f"raw data of {run.run} have another length than its row says")
            kept = campaign.cells(run.run)
            if kept is not None and kept[1]:
                pq.read_table(store / CELLS / kept[1])
            found = campaign.windows(run.run)
            if found is not None:
                kept_found(store / CELLS / found[1])
                if kept is None:
                    faults.append(f"{run.run} has windows and no cells")
            if campaign.recipe(run.run) is not None and found is None:
                faults.append(f"{run.run} is reduced and has no windows")
            if campaign.recipe(run.run) is not None and not campaign.rows("span", run.run):
                faults.append(f"{run.run} is reduced and has no spans")
            if campaign.recipe(run.run) is None and campaign.rows("reading", run.run):
                faults.append(f"{run.run} is not reduced and has readings")
        faults += _strays(store, campaign)
    return faults


def _strays(store: Path, campaign: Campaign) -> list[str]:
    runs = campaign.runs()
    named = {run.raw for run in runs}
    named |= {kept[1] for run in runs if (kept := campaign.cells(run.run)) is not None}
    named |= {kept[1] for run in runs if (kept := campaign.windows(run.run)) is not None}
    found = [f.name for part in (RAW, CELLS) for f in (store / part).iterdir()]
    return [f"{name} is named by no row" for name in found if name not in named]


def _content(store: Path) -> dict[str, Any]:
    with open_campaign(store) as campaign:
        tables = {table: campaign.rows(table) for table in ("flag", "span", "reading")}
        return {**tables, "runs": campaign.runs()}
