"""Print every acceptance line of a part by its id, with target, measured and ok, and write docs/proof/PART.md."""

from __future__ import annotations

import argparse
import importlib
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from tools.proofs.line import ROOT, Line, Measured


def main() -> int:
    """Run the proof; exit code 1 when a line that was measured is not ok."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("part")
    parser.add_argument("--minutes", type=float, default=float("inf"), help="leave out lines that do not fit")
    parser.add_argument("--only", default="", help="ids, separated by commas")
    chosen = parser.parse_args()
    lines: list[Line] = importlib.import_module(f"tools.proofs.{chosen.part}").LINES
    wanted = [line for line in lines if not chosen.only or line.id in chosen.only.split(",")]
    rows = []
    start = time.monotonic()
    for line in wanted:
        left = chosen.minutes - (time.monotonic() - start) / 60.0
        capped = chosen.minutes != float("inf")
        if line.quiet and capped:
            measured = Measured("not measured here (a speed: wants a quiet machine, see docs/proof)", None)
        elif line.minutes > left:
            measured = Measured("not measured here (over the time cap)", None)
        else:
            measured = line.measure()
        word = {True: "ok", False: "NOT OK", None: "not measured"}[measured.ok]
        rows.append((line.id, line.target, measured.text, word))
        print(f"{line.id}: {word}\n    target:   {line.target}\n    measured: {measured.text}", flush=True)
    if chosen.minutes == float("inf"):
        _write(chosen.part, [line.id for line in lines], rows)
    print(
        f"{sum(r[3] == 'ok' for r in rows)} ok, {sum(r[3] == 'NOT OK' for r in rows)} not ok, "
        f"{sum(r[3] == 'not measured' for r in rows)} not measured"
    )
    return int(any(r[3] == "NOT OK" for r in rows))


def _write(part: str, ids: list[str], rows: list[tuple[str, str, str, str]]) -> None:
    """The table in docs/proof/; lines that were not asked for stay as they stood."""
    path = ROOT / "docs" / "proof" / f"{part}.md"
    kept: dict[str, str] = {}
    if path.exists():
        found = [line for line in path.read_text("utf-8").splitlines() if line.startswith(f"| {part}")]
        kept = {line.split("|")[1].strip(): line for line in found}
    for row in rows:
        kept[row[0]] = "| " + " | ".join(cell.replace("|", "\\|") for cell in row) + " |"
    head = f"# Proof: {part}\n\nWritten by `make prove PART={part}`.\n\n"
    head += "| id | target | measured | |\n|---|---|---|---|\n"
    path.write_text(head + "".join(f"{kept[i]}\n" for i in ids if i in kept), "utf-8")


if __name__ == "__main__":
    sys.exit(main())
