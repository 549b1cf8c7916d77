"""A kill in mid-save leaves the old scheme or the new one; the proof does it 30 times."""

from __future__ import annotations

from pathlib import Path

from tests.desk.common import example
from tests.desk.save_kills import whole_after_kills


def test_three_kills_leave_the_scheme_whole(tmp_path: Path) -> None:
    assert whole_after_kills(example(tmp_path), 3) == 3
