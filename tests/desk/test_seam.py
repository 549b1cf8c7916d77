"""The seam: the example in CONTRIBUTING is a page, and what would clash is refused."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

import pytest

from racewright.desk import pages, seam
from racewright.desk.answer import encoded
from racewright.desk.seam import Asked, Page, all_pages
from racewright.scheme import load_scheme
from tests.desk.common import example

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A folder whose files are pages too."""
    monkeypatch.setattr(pages, "__path__", [*pages.__path__, str(tmp_path)])
    all_pages.cache_clear()
    yield tmp_path
    all_pages.cache_clear()


def _example_page() -> str:
    found = re.search(r"```python\n(.*?)```", (ROOT / "CONTRIBUTING.md").read_text(), re.DOTALL)
    assert found is not None
    return found[1]


def test_the_example_of_the_guide_is_a_page_by_its_file_alone(folder: Path, tmp_path: Path) -> None:
    (folder / "zz_rotor_of_the_guide.py").write_text(_example_page())
    page = seam.page_named("rotor")
    assert [p.name for p in all_pages()].index("rotor") == sum(p.order < 25 for p in all_pages())
    text = encoded("rotor", page.data, Asked(load_scheme(example(tmp_path / "demo")), page.options()))
    assert '"rotor_speed_rad_per_s"' in text


@pytest.mark.parametrize("name", ["place", "api", "Upper", "a-b", ""])
def test_a_name_that_is_taken_or_none_is_refused(folder: Path, name: str) -> None:
    (folder / f"zz_clash_{len(name)}_{name[:1] or 'x'}.py").write_text(
        "from racewright.desk.seam import Page\n"
        f"PAGE = Page({name!r}, 'T', 'T', 99, lambda asked: {{}}, lambda screen, data: None)\n"
    )
    with pytest.raises(ValueError, match=r"name|place"):
        all_pages()


def test_a_class_with_two_sets_of_units_is_refused() -> None:
    page = Page("x", "X", "X", 99, lambda _a: {}, lambda _s, _d: None, units={"Standing": {"speed": "km/h"}})
    with pytest.raises(ValueError, match="other units"):
        seam._add_units(page)


def test_no_page_loads_the_kit_until_it_is_shown() -> None:
    """Workers import every page; the kit in each of them would be seconds and memory for nothing."""
    import subprocess
    import sys

    code = "import sys; from racewright.desk.seam import all_pages; all_pages(); sys.exit('nicegui' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
    assert isinstance(pages, ModuleType)
