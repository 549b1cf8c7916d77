"""The inputs of a case as the user wrote them, with meaning and source, defaults said."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel

from racewright.ledger.findings import InputRow
from racewright.scheme.load import LoadedScheme
from racewright.scheme.model import CaseTable
from racewright.scheme.types import default_of, key_of


def input_rows(loaded: LoadedScheme, case_name: str) -> tuple[InputRow, ...]:
    """Every key of the case and of the tables it joins, in file order of the tables."""
    case = loaded.scheme.case[case_name]
    rows: list[InputRow] = []
    _walk(case, loaded.raw["case"][case_name], f"case.{case_name}", "", rows)
    for group in ("place", "machine", "community", "trials", "neighbours"):
        name = getattr(case, group)
        if name is not None:
            table = getattr(loaded.scheme, group)[name]
            _walk(table, loaded.raw[group][name], f"{group}.{name}", "", rows)
    return tuple(rows)


def _walk(
    table: BaseModel, raw: dict[str, Any], path: str, source: str, rows: list[InputRow], *, one_of_many: bool = False
) -> None:
    """Rows of a table and those below; of tables that come by name only what was written, not every default."""
    source = str(raw.get("source", "")) or source or ("invented" if raw.get("invented") is True else "")
    for name, field in type(table).model_fields.items():
        value = getattr(table, name)
        key = f"{path}.{name}"
        if isinstance(value, BaseModel):
            _walk(value, raw.get(name, {}), key, source, rows, one_of_many=one_of_many)
        elif isinstance(value, dict):
            for inner, one in value.items():
                _walk(one, raw[name][inner], f"{key}.{inner}", source, rows, one_of_many=True)
        elif name in raw and name not in ("source", "description", "invented"):
            rows.append(InputRow(key, _as_written(raw[name]), field.description or "", source or "scheme"))
        elif name not in raw and not one_of_many:
            because = key_of(type(table), name)
            if value is not None and because is not None and because.because:
                rows.append(
                    InputRow(
                        key, default_of(type(table), name), field.description or "", f"default: {because.because}"
                    )
                )


def _as_written(value: Any) -> str:
    return value if isinstance(value, str) else repr(value)


def case_of(loaded: LoadedScheme, wanted: str | None) -> tuple[str, CaseTable]:
    """The named case, or the first.

    Raises
    ------
    InputError
        When the scheme has no case, or not this one.
    """
    cases = loaded.scheme.case
    if wanted is None:
        if not cases:
            return "", CaseTable()
        wanted = next(iter(cases))
    if wanted not in cases:
        known = ", ".join(cases) or "none"
        raise loaded.error(f"no table [case.{wanted}]; the scheme has {known}", "case")
    return wanted, cases[wanted]
