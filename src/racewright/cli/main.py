"""Entry point: pins threads, runs a command, turns every ending into an exit code and one message."""

from __future__ import annotations

import sys
import traceback
from collections.abc import Callable
from functools import cache

from typer.main import get_command

import racewright.threads as _threads  # noqa: F401  (first: pins threads before NumPy loads)
from racewright.cli.app import app
from racewright.cli.interrupt import listen
from racewright.errors import RacewrightError

CANCELLED = 130
"""Exit code of a run that the user stopped."""


def main() -> None:
    """Run the command line; exit codes 0 done, 2 input, 3 no answer, 70 internal, 130 cancelled."""
    listen()
    sys.exit(run(sys.argv[1:]))


def run(arguments: list[str]) -> int:
    """Run the command line with these arguments and return the exit code."""
    try:
        result = _command()(args=arguments, standalone_mode=False, prog_name="racewright")
    except RacewrightError as fault:
        _say(f"racewright: {fault}")
        return fault.exit_code
    except KeyboardInterrupt:
        _say(_cancelled(arguments))
        return CANCELLED
    except Exception as fault:  # noqa: BLE001  (the last door: every other fault is ours)
        return _other(fault, arguments)
    if result == CANCELLED:
        _say(_cancelled(arguments))
    return result if isinstance(result, int) else 0


@cache
def _command() -> Callable[..., object]:
    """The command line as it is parsed: putting it together takes longer than checking a scheme."""
    return get_command(app)


def _cancelled(arguments: list[str]) -> str:
    """What stands after a cancel."""
    if arguments[:1] == ["trials"]:
        return "racewright: cancelled; the campaign's store is whole, runs that were done before stay in it"
    return "racewright: cancelled; every report that stands is whole"


def _other(fault: Exception, arguments: list[str]) -> int:
    """Usage faults of the command line (2), cancel (130), and our own faults (70)."""
    if type(fault).__name__ == "NoArgsIsHelpError":
        sys.stderr.write(f"{fault}\n")
        return 2
    show = getattr(fault, "format_message", None)
    if show is not None:
        _say(f"racewright: {show()} Try 'racewright --help'.")
        return 2
    if type(fault).__name__ == "Abort":
        _say(_cancelled(arguments))
        return CANCELLED
    frame = traceback.extract_tb(fault.__traceback__)[-1]
    _say(
        f"racewright: internal fault ({type(fault).__name__} in {frame.name}, line {frame.lineno});"
        " please report it with the version and the command"
    )
    return 70


def _say(text: str) -> None:
    """One line; what cannot be printed (in a name that the user wrote, say) is escaped."""
    shown = "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in text)
    sys.stderr.write(shown + "\n")
