"""The neighbours' part of a case's findings."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from racewright.ledger.energy_parts import WORST_FIRST
from racewright.ledger.neighbours_findings import NeighboursFindings
from racewright.ledger.neighbours_things import DEPTH_KEYS, axis_depth
from racewright.ledger.roles import Roles
from racewright.remark import Remark

WANTED = ("fish", "fish_beside", "debris", "screen", "trade", "sound", "site")
"""Nodes that the findings are made of."""


def neighbours_of(roles: Roles, values: dict[str, Any]) -> NeighboursFindings | None:
    """All that was found of the case's neighbours, sound only where it was asked for; None where it has none."""
    if values["debris"] is None:
        return None
    table = roles.find("neighbours")
    return NeighboursFindings(
        name=roles.names["neighbours"],
        description=table.description,
        invented=table.invented,
        hub_depth=axis_depth({path: roles.plain(path) for path in DEPTH_KEYS}, values["site"]),
        fish=values["fish"],
        beside=values["fish_beside"],
        debris=values["debris"],
        screen=values["screen"],
        trade=values["trade"],
        sound=values["sound"] or (),
        remarks=neighbours_remarks(values),
    )


def neighbours_remarks(values: dict[str, Any]) -> tuple[Remark, ...]:
    """Every remark once, worst first; one that a fish alone has names it."""
    if values["debris"] is None:
        return ()
    found = dict.fromkeys((*_of_fish(values), *_of_screen(values), *_of_sound(values)))
    return tuple(sorted(found, key=lambda r: WORST_FIRST[r.severity]))


def _of_fish(values: dict[str, Any]) -> Iterable[Remark]:
    said: dict[Remark, dict[str, list[str]]] = {}
    answered: dict[str, int] = {}
    for fish in values["fish"]:
        answered[fish.name] = sum(at.passage is not None for at in fish.at)
        for at in fish.at:
            if at.passage is None:
                yield Remark("warning", f"{fish.name}, {at.condition}: no answer, {at.reason}", "fish")
                continue
            for remark in at.passage.remarks:
                said.setdefault(remark, {}).setdefault(fish.name, []).append(at.condition)
    for remark, by in said.items():
        yield Remark(remark.severity, _whose(by, answered) + remark.text, remark.about)
    if values["fish"] and not values["fish_beside"]:
        text = "The design point gives no power, so there is no bare rotor to set the machine beside."
        yield Remark("note", text, "fish")


def _whose(by: dict[str, list[str]], answered: dict[str, int]) -> str:
    """'eel, smolt (design point): ', or nothing where it is said of every fish at every point."""
    some = {name: points for name, points in by.items() if len(points) < answered[name]}
    if not some and by.keys() == answered.keys():
        return ""
    points = next(iter(some.values()), [])
    if by.keys() == answered.keys() and all(one == points for one in by.values()):
        return f"At the {'; '.join(points)}: "
    return ", ".join(f"{n} ({'; '.join(at)})" if n in some else n for n, at in by.items()) + ": "


def _of_screen(values: dict[str, Any]) -> Iterable[Remark]:
    if values["screen"] is not None:
        yield from values["screen"].option.clean_loss.remarks


def _of_sound(values: dict[str, Any]) -> Iterable[Remark]:
    for at in values["sound"] or ():
        if at.level is None:
            yield Remark("warning", f"{at.condition}: no answer, {at.reason}", "sound")
        else:
            yield from at.level.remarks
