"""Hostile schemes and records: an answer or one message, never a traceback, a hang, or a file elsewhere."""

from __future__ import annotations

import os
import random
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from racewright.cli.main import run
from racewright.errors import InputError, RacewrightError
from racewright.records.series_csv import read_series
from racewright.records.table_csv import read_columns
from racewright.scheme import load_scheme
from tests.frame import mutations
from tests.frame.common import FULL, PLACE_ALONE, change, copy_example, count, snapshot

Note = Callable[[str, object], None]
SHORT = 80
"""Rows of the record kept, so that a check takes milliseconds."""

_written: list[str] = []
_watching = False


def _listen(event: str, arguments: tuple[Any, ...]) -> None:
    """Note every file that this process opens for writing, makes, moves or removes."""
    if not _watching:
        return
    if event == "open":
        path, mode, flags = arguments
        if isinstance(path, str | bytes) and ((mode and set(mode) & set("wax+")) or (mode is None and flags & 3)):
            _written.append(str(path))
    elif event in ("os.mkdir", "os.remove", "os.rmdir", "os.truncate", "os.chmod"):
        _written.append(_from_handle(*arguments))
    elif event == "os.symlink":
        _written.append(str(arguments[1]))
    elif event in ("os.rename", "os.link"):
        _written.extend(str(a) for a in arguments[:2])
    elif event in ("subprocess.Popen", "os.system", "socket.connect"):
        _written.append(event)


def _from_handle(name: Any, *rest: Any) -> str:
    """A path whole, also when it is told from the handle of its folder, as removal of a tree does."""
    handle = rest[-1] if rest and isinstance(rest[-1], int) else -1
    return str(name) if handle < 0 else f"{os.readlink(f'/proc/self/fd/{handle}')}/{name}"


sys.addaudithook(_listen)


@contextmanager
def watched() -> Iterator[list[str]]:
    """Writes made inside the block."""
    global _watching
    _written.clear()
    _watching = True
    try:
        yield _written
    finally:
        _watching = False


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    scheme = copy_example(tmp_path / "work" / "demo")
    record = scheme.parent / "discharge.csv"
    record.write_text("".join(record.read_text("utf-8").splitlines(keepends=True)[:SHORT]), "utf-8")
    return scheme


def mutate(rng: random.Random, scheme: Path, texts: dict[str, str]) -> str:
    """Write one hostile variant beside the scheme; returns which file was changed."""
    chosen = rng.choice(("scheme.toml", "scheme.toml", "scheme.toml", "discharge.csv", "transect.csv"))
    for name, text in texts.items():
        make = mutations.scheme if name == "scheme.toml" else mutations.record
        data = make(rng, text) if name == chosen else text.encode()
        (scheme.parent / name).write_bytes(data)
    return chosen


def originals(scheme: Path) -> dict[str, str]:
    return {p.name: p.read_text("utf-8") for p in sorted(scheme.parent.iterdir()) if p.suffix in (".toml", ".csv")}


def test_check_answers_or_says_one_thing(
    demo: Path, capsys: pytest.CaptureFixture[str], record_property: Note
) -> None:
    texts = originals(demo)
    codes: dict[int, int] = {}
    slowest = 0.0
    turns = count(400, 100_000)
    for seed in range(turns):
        rng = random.Random(seed)
        mutate(rng, demo, texts)
        start = time.process_time()
        with watched() as written:
            code = run(["check", str(demo)])
        slowest = max(slowest, time.process_time() - start)
        said = capsys.readouterr()
        assert code in (0, 2), (seed, code, said.err)
        assert "Traceback" not in said.err, seed
        assert code == 0 or said.err.count("\n") == 1, (seed, said.err)
        assert code == 0 or len(said.err) < 1500, (seed, len(said.err))
        assert written == [], (seed, written)
        codes[code] = codes.get(code, 0) + 1
    assert slowest < 20.0  # a hang, not a speed
    assert codes[0] > turns // 50
    assert codes[2] > turns // 2
    record_property("measured", f"{turns} checks: {codes[0]} sound, {codes[2]} refused, slowest {slowest:.2f} s")


def test_readers_answer_or_raise_an_input_error(demo: Path, record_property: Note) -> None:
    texts = originals(demo)
    folder = demo.parent
    turns = count(500, 30_000)
    refused = 0
    for seed in range(turns):
        rng = random.Random(-1 - seed)
        mutate(rng, demo, texts)
        refused += _refused(load_scheme, demo) + _refused(discharge, folder, rng) + _refused(transect, folder)
    assert refused > turns // 3
    record_property("measured", f"{3 * turns} readings, {refused} refused")


def _refused(read: Callable[..., object], *arguments: object) -> bool:
    """True for an input error, False for an answer; any other error passes on."""
    try:
        read(*arguments)
    except InputError:
        return True
    return False


def discharge(folder: Path, rng: random.Random) -> None:
    read_series(
        folder / "discharge.csv",
        time_column="date",
        value_column="discharge_m3s",
        unit=rng.choice(("m3/s", "ft3/s", "m", "\x00")),
        kind="discharge",
        zone=rng.choice(("UTC", "+05:45", "Z", "")),
        shown_as="discharge.csv",
    )


def transect(folder: Path) -> None:
    read_columns(folder / "transect.csv", {"distance_m": "m", "bed_level_m": "m"}, "transect.csv")


@pytest.mark.usefixtures(*([] if FULL else ["drawn_once"]))
def test_report_answers_or_says_one_thing(
    demo: Path, tmp_path: Path, frame_cache: Path, capsys: pytest.CaptureFixture[str], record_property: Note
) -> None:
    texts = originals(demo)
    out = tmp_path / "work" / "out"
    change(demo, *PLACE_ALONE)  # enough for a folder of reports, and for what drawing keeps when it is new here
    assert run(["report", str(demo), "--out", str(out)]) == 0
    allowed = (str(out), str(frame_cache))
    codes: dict[int, int] = {}
    turns, seed = count(2, 100), 10_000_000
    outside = snapshot(tmp_path)
    while sum(codes.values()) < turns:
        seed += 1
        mutate(random.Random(seed), demo, texts)
        if run(["check", str(demo)]) != 0:
            continue  # those are the test above; here only what gets through to the computation
        capsys.readouterr()
        with watched() as written:
            code = run(["report", str(demo), "--out", str(out)])
        said = capsys.readouterr().err
        assert code in (0, 2, 3), (seed, code, said)
        assert "Traceback" not in said
        assert code == 0 or said.count("\n") == 1, (seed, said)
        strange = [w for w in written if not w.startswith(allowed) and "__pycache__" not in w and w != "/dev/null"]
        assert strange == [], (seed, strange)
        codes[code] = codes.get(code, 0) + 1
    inside = {str(out.relative_to(tmp_path)), str(demo.parent.relative_to(tmp_path))}
    left = {n for n in snapshot(tmp_path) if not any(n == i or n.startswith(i + "/") for i in inside)}
    assert left == {n for n in outside if not any(n == i or n.startswith(i + "/") for i in inside)}
    record_property(
        "measured", f"{turns} reports of hostile but sound input: exit codes {dict(sorted(codes.items()))}"
    )


def test_every_refusal_has_an_exit_code_of_its_own() -> None:
    assert {kind.exit_code for kind in RacewrightError.__subclasses__()} == {2, 3, 130}
