"""The eighteen faults: what is done to the example, what must be said, which exit code."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from tests.frame.common import change


@dataclass(frozen=True)
class Fault:
    """One fault of the input.

    Attributes
    ----------
    name : str
    harm : callable
        Does it to the scheme at this path.
    words : tuple of str
        File, line, key and meaning: all must be in the message.
    command : str
        The one command that meets it; '' for check and report alike.
    """

    name: str
    harm: Callable[[Path], None]
    words: tuple[str, ...]
    exit_code: int = 2
    command: str = ""


def edit(old: str, new: str) -> Callable[[Path], None]:
    return lambda scheme: change(scheme, old, new)


def record(harm: Callable[[Path], None]) -> Callable[[Path], None]:
    return lambda scheme: harm(scheme.parent / "discharge.csv")


def second_day(value: bytes) -> Callable[[Path], None]:
    """Another value in the record's third line."""

    def harm(path: Path) -> None:
        lines = path.read_bytes().splitlines(keepends=True)
        path.write_bytes(b"".join([*lines[:2], lines[2].split(b",")[0] + b"," + value + b"\n", *lines[3:]]))

    return record(harm)


def repeat_day(path: Path) -> None:
    lines = path.read_text("utf-8").splitlines(keepends=True)
    path.write_text("".join([*lines[:3], lines[2].split(",")[0] + ",1.5\n", *lines[3:]]), "utf-8")


def latin(scheme: Path) -> None:
    """A word with an accent in the title, saved as Latin-1."""
    scheme.write_bytes(scheme.read_bytes().replace(b'title = "River', 'title = "Rivi\u00e8re'.encode("latin-1"), 1))


def to_folder(path: Path) -> None:
    path.unlink()
    path.mkdir()


THROAT, LENGTH = 'throat_diameter = "1 m"', 'length = "1 m"'
DUCT, SCHEME, CSV = "machine.river_unit.duct", "scheme.toml:", "discharge.csv:"

FAULTS = (
    Fault("wrong unit", edit(THROAT, 'throat_diameter = "1 kg"'), (SCHEME, f"{DUCT}.throat_diameter", "kg")),
    Fault("bare number", edit(THROAT, "throat_diameter = 1"), (SCHEME, f"{DUCT}.throat_diameter", "bare number 1")),
    Fault("decimal comma", edit(THROAT, 'throat_diameter = "1,5 m"'), (SCHEME, f"{DUCT}.throat_diameter", "point")),
    Fault("unknown key", edit(LENGTH, 'lenght = "1 m"'), (SCHEME, f"{DUCT}.lenght", "'length'")),
    Fault("negative size", edit(LENGTH, 'length = "-1 m"'), (SCHEME, f"{DUCT}.length", "'-1 m'")),
    Fault(
        "hub larger than rotor", edit('diameter = "0.26 m"', 'diameter = "1.1 m"'), (SCHEME, "hub.diameter", "1.1")
    ),
    Fault(
        "vanes leave the duct", edit('place_x = "0.14 m"', 'place_x = "0.02 m"'), (SCHEME, "vanes.place_x", "leave")
    ),
    Fault("empty CSV", record(lambda p: p.write_bytes(b"") and None), ("discharge.csv", "empty")),
    Fault("text in a number column", second_day(b"high"), (f"{CSV}3", "discharge_m3s", "'high'")),
    Fault("repeated dates", record(repeat_day), (f"{CSV}4", "date", "same moment as line 3")),
    Fault("Latin-1 in the CSV", second_day(b"12.\xb2"), (f"{CSV}3", "UTF-8")),
    Fault("Latin-1 in the scheme", latin, (SCHEME, "UTF-8")),
    Fault("NaN in the scheme", edit("exit_area_ratio = 1.5", "exit_area_ratio = nan"), (SCHEME, "exit_area_ratio")),
    Fault("NaN with a unit", edit(THROAT, 'throat_diameter = "nan m"'), (SCHEME, f"{DUCT}.throat_diameter")),
    Fault("NaN in the CSV", second_day(b"nan"), (f"{CSV}3", "discharge_m3s", "'nan'")),
    Fault("missing file", record(lambda p: p.unlink()), (SCHEME, "record.file", "discharge.csv")),
    Fault("folder for a file", record(to_folder), ("discharge.csv", "is a directory")),
    Fault("folder for the scheme", to_folder, ("scheme.toml", "is a folder")),
    Fault(
        "no flow above cut-in",
        edit('cut_in_speed = "0.8 m/s"', 'cut_in_speed = "5 m/s"'),
        ("cut_in_speed is 5 m/s", "fastest"),
        exit_code=3,
        command="report",
    ),
)
"""Those that need no ordinary user and no test double; with unreadable file, read-only folder and diverging solve
(`test_faults`) they are the eighteen, some in two places."""
