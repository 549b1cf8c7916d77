"""`racewright strike`: what logs do to the machine in milliseconds, to its lines in seconds, and in a year."""

from __future__ import annotations

import sys
from pathlib import Path

from racewright import __version__
from racewright.cli.block_text import block_text
from racewright.cli.encode import to_json
from racewright.cli.holding_answer import strikes_printed
from racewright.cli.holding_case import holding_findings
from racewright.dossier.chapters import struck
from racewright.errors import InputError
from racewright.ledger.chain import scheme_hash
from racewright.ledger.holding_parts import STRUCK_NODES
from racewright.ledger.struck_findings import StruckYear
from racewright.records.table_out import check_target, write_table
from racewright.scheme import load_scheme


def show_strike(path: Path, case_name: str | None, csv: Path | None, *, as_json: bool) -> None:
    """Compute and print the strikes of a case; write the yearly chances when asked."""
    loaded = load_scheme(path)
    if csv is not None:
        check_target(csv)
    name, found = holding_findings(loaded, case_name, STRUCK_NODES, "strike")
    if csv is not None:
        if found.year is None:
            raise InputError("no year of logs to write; add a [holding.NAME.log.NAME] table", file=str(path))
        _write(csv, found.year)
    if as_json:
        provenance = {"version": __version__, "command": "strike", "scheme_sha256": scheme_hash(loaded)}
        sys.stdout.write(to_json({"case": name, "strikes": strikes_printed(found)}, provenance) + "\n")
    sys.stderr.write(block_text(struck.blocks(found)) + "\n")
    if csv is not None:
        sys.stderr.write(f"Yearly chances: {csv}\n")


def _write(csv: Path, year: StruckYear) -> None:
    names = ("first_low", "first_high", "first_high_upper", "slow", "slow_low", "slow_high")
    write_table(csv, [("level", "N", year.level), *((name, "-", getattr(year, name)) for name in names)])
