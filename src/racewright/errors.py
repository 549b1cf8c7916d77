"""The error classes, each with the exit code that a command ends with."""

from __future__ import annotations


class RacewrightError(Exception):
    """Root of every error that is told to the user in one message, without a traceback."""

    exit_code: int = 70


class InputError(RacewrightError):
    """The input is wrong: says what is wrong, where, and what would be right.

    Parameters
    ----------
    message : str
        What is wrong and what would be right, one sentence or two.
    file, key : str, optional
        The file and the dotted scheme key (or column) concerned.
    line : int, optional
        Line in that file, counted from 1.
    """

    exit_code = 2

    def __init__(
        self, message: str, *, file: str | None = None, line: int | None = None, key: str | None = None
    ) -> None:
        super().__init__(message)
        self.message = message
        self.file = file
        self.line = line
        self.key = key

    def __str__(self) -> str:
        place = self.file or ""
        if self.line is not None:
            place = f"{place}:{self.line}" if place else f"line {self.line}"
        parts = [p for p in (place, self.key) if p]
        return ": ".join([*parts, self.message])


class MissingColumn(InputError):
    """A data file has no column of the wanted name; `column` is that name.

    Whoever knows which scheme key names the column points the message at it.
    """

    def __init__(self, message: str, column: str, *, file: str | None = None, line: int | None = None) -> None:
        super().__init__(message, file=file, line=line)
        self.column = column


class UnitClash(InputError):
    """A data file's own row of units contradicts the unit said of a column; `column` is its name.

    Whoever knows which scheme key says the unit points the message at it.
    """

    def __init__(self, message: str, column: str, *, file: str | None = None, line: int | None = None) -> None:
        super().__init__(message, file=file, line=line)
        self.column = column


class NoAnswerError(RacewrightError):
    """The input is well formed but the computation could not answer; the message says why."""

    exit_code = 3


class Cancelled(RacewrightError):
    """The user, a time limit or the desk stopped a long computation."""

    exit_code = 130
