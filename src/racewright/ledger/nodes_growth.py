"""The growth's nodes: sizes solved and set side by side, claims filled, programme."""

from __future__ import annotations

from dataclasses import replace

from racewright.errors import InputError, NoAnswerError
from racewright.growth.claims import Claim
from racewright.growth.grow import Growth, grow
from racewright.growth.headline_figures import Figure, filled, headline_figures
from racewright.growth.programme_cash import programme_cash
from racewright.growth.programme_value import programme_value
from racewright.growth.step import SolvedStep, solve_step
from racewright.ledger.growth_findings import ProgrammeFound
from racewright.ledger.growth_money import leap_of, programme_of, step_costs
from racewright.ledger.growth_things import (
    STEP_KEYS,
    claim_of,
    exponents_of,
    in_order,
    label,
    longest_fish,
    own_step,
    size_of,
)
from racewright.ledger.node import Given, Node
from racewright.tick import Tick

ENERGY = "energy in a year"
"""Name of the claim that the case's yearly energy fills."""


def _growth(given: Given, tick: Tick) -> Growth:
    """Every size solved for itself; own exponents without their sources, which tell and do not compute."""
    sizes = in_order(given.keys["growth.size"])
    if len(sizes) < 2:
        raise InputError(f"growth wants two sizes or more; there is {len(sizes)}", key="size")
    step, fish = own_step(given), longest_fish(given.keys["neighbours.fish"])
    solved = []
    for done, (name, table) in enumerate(sizes):
        tick(0.5 * done / len(sizes))
        try:
            solved.append(solve_step(size_of(step, name, table, fish)))
        except NoAnswerError as error:
            raise NoAnswerError(f"{label(name)}: {error}") from None
    own = exponents_of(given.keys["growth.exponent"], {})
    return grow(solved, own=own, tick=lambda share: tick(0.5 + 0.5 * share))


def _claims(given: Given, _tick: Tick) -> tuple[Claim, ...]:
    """In the order of their tables' names, each without its source; those computed filled where a figure is known."""
    figures = {"": _of_the_case(given)}
    for page in given.nodes["growth"].pages:
        figures[page.solved.step.name] = headline_figures(page.solved)
    stated = [claim_of(name, table) for name, table in sorted(given.keys["growth.claim"].items())]
    return tuple(filled(_of_energy(claim), figures.get(claim.step, {})) for claim in stated)


def _of_energy(claim: Claim) -> Claim:
    """The claim with where the case's energy comes from; any other as it is."""
    wanted = claim.name == ENERGY and claim.basis == "computed" and claim.value is None and not claim.step
    return replace(claim, source="the year's energy of one machine at the case's place") if wanted else claim


def _of_the_case(given: Given) -> dict[str, Figure]:
    """Figures of the machine as it stands, and its energy where a place is known."""
    point = replace(given.nodes["design_point"], band=given.nodes["bands"].combined)
    found = headline_figures(SolvedStep(own_step(given), point))
    energy = given.nodes["energy"]
    if energy is not None:
        found[ENERGY] = Figure(energy.total.value, "J", energy.total)
    return found


def _programme(given: Given, tick: Tick) -> ProgrammeFound:
    table = given.keys["growth.programme"]
    programme, leap = programme_of(given.keys["growth.size"], table), leap_of(table)
    exponent, learning = table["size_exponent"], table["learning_rate"]
    return ProgrammeFound(
        programme,
        leap,
        programme_cash(programme, seed=given.seed, tick=tick),
        programme_value(programme, leap),
        exponent,
        learning,
        step_costs(programme, exponent, learning),
    )


GROWTH_NODES = (
    Node(
        "growth",
        1,
        _growth,
        keys=(*STEP_KEYS, "growth.size", "growth.exponent", "neighbours.fish"),
        nodes=("rows", "flow", "water"),
        needs=("growth", "machine"),
    ),
    Node(
        "claims",
        1,
        _claims,
        keys=(*STEP_KEYS, "growth.claim"),
        nodes=("rows", "flow", "water", "design_point", "bands", "energy", "growth"),
        needs=("growth", "machine"),
    ),
    Node(
        "programme",
        1,
        _programme,
        keys=("growth.size", "growth.programme"),
        needs=("growth.programme",),
    ),
)
"""What is found of a machine's growth."""
