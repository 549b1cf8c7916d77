"""The page of commands, written from the command line's own help."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import typer

from tools.docs.fault import Fault, table

HEAD = """# Commands

Generated from the program's own help; `racewright COMMAND --help` says the same.

Text and progress go to standard error; with `--json` one JSON object goes to standard output, see
[json.md](json.md). Exit codes: 0 done, 2 the input is wrong, 3 the computation could not answer, 70 an internal
fault, 130 cancelled. What a scheme holds: [scheme.md](scheme.md).
"""

Command = Any
"""A command object of the command-line library, whose classes are not public."""


def page(app: typer.Typer, name: str) -> tuple[str, list[Fault]]:
    """The page and what is undocumented: a command without help or example, a parameter without help."""
    parts, faults = [HEAD], []
    for full, command in _walk(typer.main.get_command(app), name):
        text, found = _section(full, command)
        parts.append(text)
        faults += found
    return "\n".join(parts), faults


def examples(app: typer.Typer, name: str) -> list[str]:
    """The example of each command that has one."""
    return [found for _full, command in _walk(typer.main.get_command(app), name) if (found := _example(command))]


def _example(command: Command) -> str:
    return str(command.epilog or "").removeprefix("Example:").strip()


def _walk(command: Command, name: str) -> Iterator[tuple[str, Command]]:
    """Every command with its full name, groups before their commands."""
    yield name, command
    for child, inner in getattr(command, "commands", {}).items():
        yield from _walk(inner, f"{name} {child}")


def _section(full: str, command: Command) -> tuple[str, list[Fault]]:
    faults = []
    text = (command.help or "").strip()
    if not text:
        faults.append(Fault(full, "the command has no help"))
    example = _example(command)
    if not example and not hasattr(command, "commands"):
        faults.append(Fault(full, "the command has no example (epilog)"))
    arguments: list[tuple[str, str]] = []
    options: list[tuple[str, str]] = []
    for parameter in command.params:
        is_argument = parameter.param_type_name == "argument"
        shown = parameter.name.upper() if is_argument else _option(parameter)
        meaning = (getattr(parameter, "help", None) or "").strip()
        if not meaning:
            faults.append(Fault(f"{full} {shown}", "the parameter has no help"))
        (arguments if is_argument else options).append((f"`{shown}`", meaning))
    usage = " ".join([full, *(shown.strip("`") for shown, _ in arguments), *(["[options]"] if options else [])])
    body = [f"## `{full}`\n", f"{text}\n", f"```\n{usage}\n```\n"]
    if arguments:
        body.append(table(("argument", "meaning"), arguments))
    if options:
        body.append(table(("option", "meaning"), options))
    if example:
        body.append(f"Example: `{example}`\n")
    return "\n".join(body), faults


def _option(parameter: Any) -> str:
    """An option as one types it."""
    shown = ", ".join([*parameter.opts, *parameter.secondary_opts])
    return shown if parameter.is_flag else f"{shown} VALUE"
