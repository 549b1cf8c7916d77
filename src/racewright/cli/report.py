"""`racewright report`: everything to a dossier."""

from __future__ import annotations

import json
import platform
import re
import sys
from datetime import UTC, datetime
from pathlib import Path

from racewright.cli.encode import to_json
from racewright.cli.progress import progress
from racewright.cli.summary import summary
from racewright.dossier.build import Dossier, build
from racewright.errors import InputError
from racewright.ledger.chain import compute
from racewright.ledger.classes import CLASSES
from racewright.ledger.findings import Findings
from racewright.ledger.store import Store, cache_folder
from racewright.records.reports import write_report
from racewright.scheme import load_scheme


def make_report(path: Path, out: Path | None, case_name: str | None, *, workers: int, as_json: bool) -> None:
    """Compute a case, write its report folder, name the dossier."""
    loaded = load_scheme(path)
    root = out or path.parent / "reports"
    if root.exists() and not root.is_dir():
        raise InputError("is a file; name a folder for the reports with --out", file=str(root))
    with progress("computing") as tick:
        findings = compute(loaded, case_name, tick, store=Store(cache_folder(), CLASSES), workers=workers)
        dossier = build(findings)
    files = report_files(findings, dossier)
    latest = write_report(root, report_name(findings.case), files)
    if as_json:
        sys.stdout.write(files["results.json"].decode() + "\n")
    sys.stderr.write(f"Dossier (HTML): {latest / 'dossier.html'}\nDossier (PDF):  {latest / 'dossier.pdf'}\n")


def report_files(findings: Findings, dossier: Dossier) -> dict[str, bytes]:
    """What a report folder holds, by file name."""
    provenance = {"version": findings.version, "command": "report", "scheme_sha256": findings.scheme_hash}
    currency = _currency(findings)
    return {
        "dossier.html": dossier.html,
        "dossier.pdf": dossier.pdf,
        "results.json": to_json(summary(findings), provenance, currency).encode(),
        "provenance.json": json.dumps({**provenance, **_here_and_now()}, indent=1).encode(),
        **{f"{name}.svg": figure for name, figure in dossier.figures.items()},
    }


def report_name(case: str) -> str:
    """Name of a case's report folder, after its number."""
    return re.sub(r"[^A-Za-z0-9_-]+", "_", case)[:60] or "empty"


def _currency(findings: Findings) -> str:
    """Label of all money in the case; empty where there is none. A scheme has but one."""
    if findings.community is not None:
        return findings.community.comparison.currency
    programme = findings.growth.programme if findings.growth is not None else None
    return "" if programme is None else programme.cash.terms.currency


def _here_and_now() -> dict[str, str]:
    """What differs from run to run; kept out of every page."""
    return {"time": datetime.now(UTC).isoformat(timespec="seconds"), "python": platform.python_version()}
