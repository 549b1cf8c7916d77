"""The examples in the pages: reading them, running them, comparing what they print."""

from __future__ import annotations

import contextlib
import io
import re
import shlex
import subprocess
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from racewright.cli.main import run

_FENCE = re.compile(r"^```([^\n]*)\n(.*?)^```", re.MULTILINE | re.DOTALL)
_NUMBER = re.compile(r"(?<![\w.])[-+]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?")
_EXIT = re.compile(r"\[exit (\d+)\]")


@dataclass
class Step:
    """One command with the lines it should print and its exit code, or a file to save."""

    command: str = ""
    expected: list[str] = field(default_factory=list)
    code: int = 0
    save: str = ""
    text: str = ""


def steps(page: str) -> list[Step]:
    """The steps of a page in order: blocks marked 'console run', and blocks marked 'LANGUAGE save FILE'.

    In a console block a line '$ ...' is a command and the lines below it are what it prints, on either stream;
    '...' stands for any text in a line, or alone for any lines; '[exit 2]' says the exit code.
    """
    found: list[Step] = []
    for info, body in _FENCE.findall(page):
        words = info.split()
        if words[:2] == ["console", "run"]:
            for line in body.splitlines():
                code = _EXIT.fullmatch(line)
                if line.startswith("$ "):
                    found.append(Step(command=line[2:]))
                elif code:
                    found[-1].code = int(code[1])
                else:
                    found[-1].expected.append(line)
        elif len(words) == 3 and words[1] == "save":
            found.append(Step(save=words[2], text=body))
    return found


def unrun(page: str) -> list[str]:
    """Console blocks that nobody runs."""
    return [body for info, body in _FENCE.findall(page) if info.split()[:1] == ["console"] and info != "console run"]


def perform(step: Step, folder: Path, environment: Mapping[str, str], *, shell: bool = True) -> str:
    """Do one step in a folder; what is wrong with it, or nothing.

    Without a shell the commands of this program run in this process, which has loaded everything; others never do.
    """
    if step.save:
        (folder / step.save).write_text(step.text, "utf-8")
        return ""
    if shell or not step.command.startswith("racewright "):
        done = subprocess.run(
            step.command, shell=True, cwd=folder, env=environment, text=True, timeout=600,
            stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False,
        )  # fmt: skip
        code, said = done.returncode, done.stdout
    else:
        code, said = _here(step.command, folder)
    if code != step.code:
        return f"{step.command}: exit code {code}, wanted {step.code}\n{said}"
    fault = compare(step.expected, said.splitlines()) if step.expected else ""
    return f"{step.command}: {fault}" if fault else ""


def _here(command: str, folder: Path) -> tuple[int, str]:
    """Exit code of a command of this program, and what it says on both streams; '> FILE' is heeded."""
    words, said = shlex.split(command)[1:], io.StringIO()
    printed = io.StringIO() if ">" in words else said
    asked, file = (words[:-2], words[-1]) if words[-2:-1] == [">"] else (words, "")
    assert not set(asked) & {">", ">>", "<", "|", "&&", ";"}, f"{command}: wants a shell"
    with contextlib.chdir(folder), contextlib.redirect_stderr(said), contextlib.redirect_stdout(printed):
        code = run(asked)
    if file:
        (folder / file).write_text(printed.getvalue(), "utf-8")
    return code, said.getvalue()


def compare(expected: list[str], printed: list[str]) -> str:
    """What differs, or nothing. A line '...' stands for any number of lines."""
    if not expected:
        return f"more was printed: {printed[0]!r}" if printed else ""
    if expected[0].strip() == "...":
        faults = [compare(expected[1:], printed[skip:]) for skip in range(len(printed) + 1)]
        return "" if "" in faults else faults[0]
    if not printed:
        return f"not printed: {expected[0]!r}"
    return (
        compare(expected[1:], printed[1:])
        if same(expected[0], printed[0])
        else f"wanted {expected[0]!r}, got {printed[0]!r}"
    )


def same(expected: str, printed: str) -> bool:
    """Equal text with equal numbers: within 0.5 %, or one unit of the last decimal that the page prints."""
    pattern, numbers, end = "", [], 0
    for found in _NUMBER.finditer(expected):
        pattern += _text(expected[end : found.start()]) + f"({_NUMBER.pattern})"
        numbers.append(found[0])
        end = found.end()
    match = re.fullmatch(pattern + _text(expected[end:]), printed)
    return bool(match) and all(close(*pair) for pair in zip(numbers, match.groups(), strict=True))


def _text(part: str) -> str:
    return re.escape(part).replace(re.escape("..."), ".*")


def close(wanted: str, found: str) -> bool:
    """Is a printed number near enough?"""
    decimals = len(wanted.partition(".")[2]) if "." in wanted and "e" not in wanted.lower() else None
    last = 0.0 if decimals is None else 1.001 * 10.0**-decimals
    return abs(float(found) - float(wanted)) <= max(0.005 * abs(float(wanted)), last)
