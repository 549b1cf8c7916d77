"""Tables out: our own are replaced, nothing else ever is."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.records.table_out import check_target, write_table

COLUMNS = [("a", "m", np.array([1.0, np.nan])), ("b", "-", np.array([0.1, 2.0]))]


def test_blank_for_what_is_not_finite_and_again_over_itself(tmp_path: Path) -> None:
    path = tmp_path / "t.csv"
    for _turn in range(2):
        write_table(path, COLUMNS)
        assert path.read_text("utf-8") == "# units: m, -\na,b\n1.0,0.1\n,2.0\n"


@pytest.mark.parametrize("content", ["", "date,value\n2020-01-01,3\n", "format = 2\n", "# a comment of mine\n"])
def test_a_file_that_is_not_ours_is_never_replaced(tmp_path: Path, content: str) -> None:
    path = tmp_path / "scheme.toml"
    path.write_text(content, "utf-8")
    for ask in (lambda: check_target(path), lambda: write_table(path, COLUMNS)):
        with pytest.raises(InputError, match="is no table written here"):
            ask()
    assert path.read_text("utf-8") == content


@pytest.mark.parametrize(("name", "said"), [(".", "is a folder"), ("no/such/t.csv", "cannot be written")])
def test_places_that_cannot_be_written(tmp_path: Path, name: str, said: str) -> None:
    with pytest.raises(InputError, match=said):
        check_target(tmp_path / name)
