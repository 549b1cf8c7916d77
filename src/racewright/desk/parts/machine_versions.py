"""Two versions of the scheme side by side: the saved file, the draft, and those that were kept to look back at."""

from __future__ import annotations

import tomllib
import weakref
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from nicegui import ui

from racewright.desk import look
from racewright.desk.parts import machine_now as parts
from racewright.dossier import format as fmt

if TYPE_CHECKING:
    from racewright.desk.parts.machine_live import Live

SAVED, DRAFT = "the saved file", "the draft"

MOST = 8
"""Versions that can be kept."""

_KEPT: weakref.WeakKeyDictionary[Any, dict[str, bytes]] = weakref.WeakKeyDictionary()
"""Kept versions by desk: every tab has them, until the desk ends."""

_NUMBERS: tuple[tuple[str, str, tuple[fmt.Scale, ...] | None], ...] = (
    ("shaft power", "shaft_power_W", fmt.POWER),
    ("power coefficient, CP", "power_coefficient", None),
    ("thrust coefficient, CT", "thrust_coefficient", None),
    ("head coefficient, CH", "head_coefficient", None),
    ("rotor speed", "rotor_speed_rad_per_s", fmt.ROTATION),
    ("torque", "torque_N_m", fmt.TORQUE),
    ("thrust", "thrust_N", fmt.FORCE),
    ("roll moment", "roll_moment_N_m", fmt.TORQUE),
    ("flow rate", "flow_rate_m3_per_s", fmt.DISCHARGE),
    ("hydraulic efficiency", "hydraulic_efficiency", fmt.SHARE),
)


def compare(live: Live) -> None:
    """The section: which two, keep one more, and what differs."""
    keeper = live.screen.desk.keeper
    kept = _KEPT.setdefault(live.screen.desk, {})
    with look.section("Compare two versions"):
        with ui.element("div").classes("fields"):
            for side in (0, 1):
                _choice(live, side, [SAVED, DRAFT, *kept])
        table = ui.element("div").classes("machine-stack")

        def keep() -> None:
            if keeper.data not in kept.values() and len(kept) < MOST:
                kept[f"kept {len(kept) + 1}"] = keeper.data
            live.screen.refresh()

        with ui.element("div").classes("knobs"):
            look.button("Keep the draft to compare", keep, title="until the desk ends; saving is another matter")
    with table:
        look.note("Follows when the draft is computed.", "soft")
    live.followers["year"].append(lambda: _fill(live, table))


def _choice(live: Live, side: int, names: list[str]) -> None:
    if live.chosen[side] not in names:
        live.chosen[side] = (SAVED, DRAFT)[side]
    entry = ui.select(names, value=live.chosen[side], label=("first", "second")[side])
    entry.props("outlined dense stack-label")

    def chosen(event: Any) -> None:
        live.chosen[side] = event.value
        live.screen.refresh()

    entry.on_value_change(chosen)


def _text(live: Live, name: str) -> bytes:
    keeper = live.screen.desk.keeper
    if name == DRAFT:
        return keeper.data
    if name in _KEPT.get(live.screen.desk, {}):
        return _KEPT[live.screen.desk][name]
    try:
        return keeper.path.read_bytes()
    except OSError:
        return keeper.data


def _fill(live: Live, place: Any) -> None:
    first, second = (_text(live, name) for name in live.chosen)
    place.clear()
    with place:
        if first == second:
            look.note("The two are the same; turn something, or choose another version.", "soft")
            return
        look.note("Both are being computed.", "soft")
    found: list[dict[str, Any]] = [{}, {}]

    def take(side: int, answer: dict[str, Any]) -> None:
        found[side].update(answer)
        if not all("point" in f for f in found):
            return
        place.clear()
        with place:
            _tables(live, first, second, found)

    for side, data in enumerate((first, second)):
        for function in (parts.now, parts.year):
            live.version(
                f"compare {side} {function.__name__}",
                function,
                data,
                lambda answer, side=side: take(side, answer),  # type: ignore[misc]
            )


def _tables(live: Live, first: bytes, second: bytes, found: list[dict[str, Any]]) -> None:
    keys = [[key, before, after] for key, before, after in differences(first, second)]
    names = [look.Column("scheme key"), *(look.Column(name, number=True) for name in live.chosen)]
    look.table("What was changed", names, keys[:40])
    rows = [_row(*entry, *(f["point"] for f in found)) for entry in _NUMBERS if all(f["point"] for f in found)]
    energies = [f.get("energy") for f in found]
    if all(energies):
        totals = [{"total": e["total_J"]["value"]} for e in energies if e]
        rows.append(_row("energy in a year", "total", fmt.ENERGY, *totals))
    columns = [look.Column("quantity"), *(look.Column(name, number=True) for name in live.chosen)]
    look.table("At the design point, and in a year", [*columns, look.Column("change", number=True)], rows)


def _row(
    name: str, key: str, scales: tuple[fmt.Scale, ...] | None, first: Mapping[str, Any], second: Mapping[str, Any]
) -> list[str]:
    a, b = float(first[key]), float(second[key])
    said = [fmt.quantity(v, scales, 4) if scales else fmt.number(v, 4) for v in (a, b)]
    if a == 0.0:
        return [name, *said, ""]
    share = 100.0 * (b / a - 1.0)
    return [name, *said, ("+" if share > 0.005 else "") + fmt.number(share, 2) + f"{fmt.THIN}%"]


def differences(first: bytes, second: bytes) -> list[tuple[str, str, str]]:
    """Scheme keys by dotted path that two texts hold with another value; '' where one has none."""
    one, two = (_flat(tomllib.loads(text.decode("utf-8-sig")), "") for text in (first, second))
    return [(k, one.get(k, ""), two.get(k, "")) for k in {**one, **two} if one.get(k) != two.get(k)]


def _flat(table: Mapping[str, Any], path: str) -> dict[str, str]:
    found: dict[str, str] = {}
    for key, value in table.items():
        below = f"{path}.{key}" if path else key
        found |= _flat(value, below) if isinstance(value, Mapping) else {below: str(value)}
    return found
