"""The desk: pages in a real browser, kills in mid-save, and what must be refused."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

from tests.desk.common import example
from tests.desk.save_kills import whole_after_kills

from tools.proofs import desk_soak
from tools.proofs.line import Line, Measured, by_tests

KILLS = 30


def kills() -> Measured:
    """Kills in mid-save, and what was left."""
    with TemporaryDirectory() as folder:
        whole = whole_after_kills(example(Path(folder)), KILLS)
    return Measured(f"{whole} of {KILLS} kills left a whole scheme", whole == KILLS)


LINES = [
    Line(
        "desk-1",
        "a real browser opens each page at both sizes: numbers equal the JSON, no complaint, no foreign request,"
        " nothing cut off, axe-core content in both lights; the machine turned and the guided look walked by key",
        by_tests(
            "tests/desk/test_browser.py",
            "tests/desk/test_machine_browser.py",
            "tests/desk/test_holding_browser.py",
            "tests/desk/test_guided.py",
            "tests/desk/test_pages.py",
        ),
        8,
    ),
    Line("desk-3a", "a scheme killed in mid-save 30 times is whole, old or new", kills, 3),
    Line(
        "desk-3b",
        "malformed bodies give 4xx with a message; host-header, cross-site, climbing paths, oversize are refused",
        by_tests("tests/desk/test_api.py", "tests/desk/test_guard.py", "tests/desk/test_command.py"),
        2,
    ),
    Line(
        "desk-4", "30 minutes of scripted use: memory flat within 20 %, no error", desk_soak.measured, 32, quiet=True
    ),
]
