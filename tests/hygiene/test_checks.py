"""The checks on locks and licences: seen to fail, and passing here."""

from __future__ import annotations

from email.message import Message
from importlib import metadata
from pathlib import Path

import pytest
from tools.hygiene import licences, lock_check

ROOT = Path(__file__).resolve().parents[2]
PROJECT = '[project]\ndependencies = ["numpy>=2"]\n[dependency-groups]\ndev = ["pytest"]\n'


def test_the_locks_here_fit() -> None:
    names = ("pyproject.toml", "requirements.lock", "requirements-test.lock")
    assert lock_check.faults(*((ROOT / n).read_text("utf-8") for n in names)) == []


@pytest.mark.parametrize(
    ("lock", "words"),
    [
        ("scipy==1.0\n", "numpy is not locked"),
        ("numpy==1.9 \\\n", "numpy>=2 is wanted"),
        ("numpy==2.1\n# from https://somewhere", "host"),
    ],
)
def test_a_lock_that_does_not_fit_is_said(lock: str, words: str) -> None:
    assert any(words in fault for fault in lock_check.faults(PROJECT, lock, "pytest==9\nnumpy==2.1\n"))


class _Package(metadata.Distribution):
    def __init__(self, name: str, licence: str) -> None:
        self._told = Message()
        self._told["Name"] = name
        self._told["License-Expression"] = licence

    @property
    def metadata(self) -> Message:  # type: ignore[override]
        return self._told

    def read_text(self, filename: str) -> str | None:
        return None

    def locate_file(self, path: object) -> Path:  # type: ignore[override]
        return ROOT


def test_licences_off_the_list_are_said(monkeypatch: pytest.MonkeyPatch) -> None:
    found = [
        _Package("good", "BSD-3-Clause"),
        _Package("bad", "GPL-3.0-only"),
        _Package("test-tool", "MPL-2.0"),
        _Package("core-mpl", "MPL-2.0"),
        _Package("silent", ""),
        _Package("extra-lgpl", "LGPL-3.0-only"),
        _Package("core-lgpl", "LGPL-3.0-only"),
        _Package("extra-gpl", "GPL-3.0-only"),
    ]
    extra = frozenset({"extra-lgpl", "core-lgpl", "extra-gpl"})
    monkeypatch.setattr(licences.metadata, "distributions", lambda: found)
    names = [fault.split(":")[0] for fault in licences.faults({"core-mpl", "core-lgpl"}, extra)]
    assert names == ["bad", "core-lgpl", "core-mpl", "extra-gpl", "silent"]
