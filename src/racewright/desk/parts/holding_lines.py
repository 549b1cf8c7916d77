"""Tension of each line in each load state against what it may carry, and the anchors, on the screen."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from nicegui import ui

from racewright.desk import look
from racewright.desk.parts.holding_safety import beside
from racewright.dossier import format as fmt

if TYPE_CHECKING:
    from racewright.desk.screen import Screen

Cell = tuple[float, float]
"""Slow tension [N] and tension over strength, no factor in it [-]."""


def matrix(poses: list[dict[str, Any]]) -> dict[str, dict[str, Cell | None]]:
    """Worst slow tension of each line in each state over all depths and stream speeds, all lines there.

    Parameters
    ----------
    poses : list of dict
        Of `tethers`, one a depth.

    Returns
    -------
    dict
        By state, then by line; None where nothing settled.
    """
    found: dict[str, dict[str, Cell | None]] = {}
    for table in poses:
        for s, state in enumerate(table["states"]):
            row = found.setdefault(state, dict.fromkeys(table["lines"]))
            for u, settled in enumerate(table["settled"][s]):
                for n, line in enumerate(table["lines"]):
                    cell = (table["tension_N"][s][u][n], table["utilisation"][s][u][n])
                    kept = row[line]
                    if settled and None not in cell and (kept is None or cell[1] > kept[1]):
                        row[line] = cell
    return found


def worst(tethers: dict[str, Any]) -> tuple[dict[str, Any], dict[str, Any]] | None:
    """The line that comes nearest to its strength with the factor that asks most of it; None without one."""
    rows = [(use["value"], line, use) for line in tethers["worst"] for use in line["utilisations"]]
    if not rows:
        return None
    _value, line, use = max(rows, key=lambda row: row[0])
    return line, use


def tensions(screen: Screen, tethers: dict[str, Any]) -> None:
    """Worst case in words and figures, each line by load state, and the dossier's drawing of their use."""
    most = worst(tethers)
    with look.section("Slow tension against what the lines bear"):
        with look.columns():
            with ui.element("div").classes("holding-stack"):
                _told(tethers, most)
            look.drawing(
                screen,
                "holding_lines",
                "Slow tension of every line in its worst case as a share of what its factor leaves of the strength.",
                "Each line in its worst case. Slow tensions only: what a log does in milliseconds is not in them.",
            )
        _matrix(tethers)


def _told(tethers: dict[str, Any], most: tuple[dict[str, Any], dict[str, Any]] | None) -> None:
    if most is None:
        look.note("No load case settles, or no factor is asked for: nothing can be said of the lines.", "safety")
    else:
        _named(*most)
    with look.figures():
        if most is not None:
            _figures(*most)
        _extremes(tethers["extremes"])
    safety = [] if most is None else [most[0]["safety"]]
    beside([*safety, tethers["extremes"]["safety"]])


def _named(line: dict[str, Any], use: dict[str, Any]) -> None:
    holds = "It holds" if use["holds"] else "It is too weak"
    look.note(
        f"Line {line['name']} comes nearest to its strength: {line['state']}, {_lost(line)}, in"
        f" {fmt.fixed(line['stream_speed_m_per_s'], fmt.SPEED, 2)} of stream. {holds} with the factor"
        f" {use['factor']:g} of {use['source']} ({use['edition']}).",
        "lead",
    )


def _lost(line: dict[str, Any]) -> str:
    return f"with {line['lost']} lost" if line["lost"] else "every line there"


def _figures(line: dict[str, Any], use: dict[str, Any]) -> None:
    look.figure(
        "Worst use of a line, of all depths, streams and losses",
        fmt.quantity(use["value"], fmt.SHARE, 2),
        say=f"{line['name']}, {_lost(line)}; {use['factor']:g} × slow tension over strength",
    )
    look.figure(
        "Slow tension there",
        fmt.quantity(line["tension_N"], fmt.FORCE),
        say=f"of {fmt.quantity(line['strength_N'], fmt.FORCE)} strength, {line['segment']}",
    )


def _extremes(found: dict[str, Any]) -> None:
    for label, key, scales, places in (
        ("Least water over the machine", "cover", fmt.LENGTH, 2),
        ("Least water under it", "bed_clearance", fmt.LENGTH, 2),
        ("Greatest roll", "roll", fmt.ANGLE, 1),
    ):
        unit = "rad" if key == "roll" else "m"
        value, wanted = found[f"{key}_{unit}"], found[f"{key}_wanted_{unit}"]
        shown = fmt.UNKNOWN if value is None else fmt.fixed(value, scales, places)
        look.figure(label, shown, say=f"every line there; wanted {fmt.fixed(wanted, scales, places)}")


def _matrix(tethers: dict[str, Any]) -> None:
    found = matrix(tethers["poses"])
    factor = max((f["factor"] for f in tethers["factors"] if f["case"] in ("intact", "both")), default=1.0)
    names = list(next(iter(found.values()), {}))
    strength = {line["name"]: line["strength_N"] for line in tethers["worst"] if line["case"] == "intact"}
    uses = [cell[1] for row in found.values() for cell in row.values() if cell is not None]
    top = max(uses, default=None)
    rows = [["may carry", *(_capacity(strength.get(name), factor) for name in names)]]
    rows += [[state, *(_cell(row[name], factor, top) for name in names)] for state, row in found.items()]
    look.table(
        f"Greatest slow tension over depths and stream speeds with every line there, and its share of what strength"
        f" over the factor {factor:g} leaves; with a line lost it stands in the drawing",
        [look.Column("load state"), *(look.Column(name, number=True) for name in names)],
        rows,
    )


def _capacity(strength: float | None, factor: float) -> str:
    return fmt.UNKNOWN if strength is None else fmt.quantity(strength / factor, fmt.FORCE)


def _cell(cell: Cell | None, factor: float, top: float | None) -> str:
    if cell is None:
        return "no rest found"
    mark = "most: " if cell[1] == top else ""
    share = factor * cell[1]
    return f"{mark}{fmt.quantity(cell[0], fmt.FORCE)}, {fmt.quantity(share, fmt.SHARE, 2)}"


def anchors(tethers: dict[str, Any]) -> None:
    """What each anchor is asked for in its worst case and what it holds, with the ground's caution."""
    with look.section("What the anchors hold"):
        rows = [_anchor(one["anchor"]) for one in tethers["anchors"]]
        names = ("asked for", "holds", "use")
        columns = [
            look.Column("anchor"),
            look.Column("worst case"),
            *(look.Column(name, number=True) for name in names),
            look.Column("verdict"),
            look.Column("pull it to", number=True),
        ]
        look.table("Each anchor in its worst case, and the pull test before anything hangs on it", columns, rows)
        beside(basis for one in tethers["anchors"] for basis in _bases(one))


def _bases(one: dict[str, Any]) -> list[dict[str, str]]:
    check, proof = one["anchor"]["check"], one["anchor"]["proof"]
    found = [one["safety"]]
    if check is not None:
        found += [check["safety"], _case(check)["case"]["factor"]["safety"]]
    return found if proof is None else [*found, proof["safety"]]


def _case(check: dict[str, Any]) -> dict[str, Any]:
    case: dict[str, Any] = next(c for c in check["cases"] if c["case"]["load"]["case"] == check["worst_case"])
    return case


def _anchor(one: dict[str, Any]) -> list[str]:
    check, proof = one["check"], one["proof"]
    pull = "–" if proof is None else fmt.quantity(proof["load_N"], fmt.FORCE)
    if check is None:
        parts = one["horizontal_N"], one["vertical_N"]
        asked = fmt.UNKNOWN if None in parts else fmt.quantity(math.hypot(*parts), fmt.FORCE)
        return [one["name"], one["case"] or "–", asked, "–", "–", f"no check: {one['words']}", pull]
    case = _case(check)
    ultimate = case["holding"]["ultimate_N"]
    factor = case["case"]["factor"]["factor"]
    return [
        f"{one['name']}, {case['holding']['kind'].replace('_', ' ')}",
        f"{check['worst_case']}, factor {factor:g}",
        fmt.quantity(case["case"]["total_N"], fmt.FORCE),
        "refused" if ultimate is None else _span(ultimate),
        "–" if case["use"] is None else fmt.quantity(case["use"], fmt.SHARE, 2),
        _verdict(check, case),
        pull,
    ]


def _span(band: dict[str, Any]) -> str:
    """Middle value, with its range where it has one."""
    value = fmt.quantity(band["value"], fmt.FORCE)
    if band["high"] - band["low"] < 0.005 * abs(band["high"]):
        return value
    return f"{value} ({fmt.quantity(band['low'], fmt.FORCE)} to {fmt.quantity(band['high'], fmt.FORCE)})"


def _verdict(check: dict[str, Any], case: dict[str, Any]) -> str:
    if case["use"] is None:
        return str(case["holding"]["reason"])
    if not check["passes"]:
        return "too weak"
    return "holds" if case["use_low"] is not None and case["use_low"] <= 1.0 else "holds at its middle value only"
