"""What the dossier says of drive and control."""

from __future__ import annotations

import dataclasses
from typing import Any

import pytest

from racewright.dossier.chapters import control
from racewright.dossier.document import Points, Table, Text
from racewright.ledger.drive_findings import DriveFindings
from tests.drive_case import MAGNETS, drive_findings

BRAKE = {"torque": "2.5 kN m", "heat": "100 kJ"}


def said(found: DriveFindings) -> str:
    """All words of the part, thin spaces as plain ones."""
    words: list[str] = []
    for block in control.write(found):
        if isinstance(block, Text):
            words.append(block.text)
        elif isinstance(block, Points):
            words += block.items
        elif isinstance(block, Table):
            words += [block.caption, *(cell for row in block.rows for cell in row)]
    return " | ".join(words).replace("\u202f", " ")


def ways(found: DriveFindings) -> Table:
    return next(b for b in control.write(found) if isinstance(b, Table) and b.columns[0].name == "above rated power")


def test_the_reason_stands_verbatim_and_the_way_taken_is_marked() -> None:
    found = drive_findings(torque_limit="1.6 kN m")
    assert found.control.summary.recommended == "slow"
    assert found.control.summary.reason in said(found)
    table = ways(found)
    assert [row[0] for row in table.rows] == ["slow the rotor (taken)", "let it speed up", "dump the rest"]
    assert [row[-1].replace("\u202f", " ") for row in table.rows] == ["yes", "yes", "not from 2.44 m/s"]
    assert "as given" in table.caption
    assert "To dump the rest: no dump load is given" in said(found)


def test_largest_values_are_those_of_the_curves() -> None:
    """Dumping at 4 m/s: torque 50 U^2 = 800 N m, tip 2 U, strike sqrt(1.44 + 4) U.

    The roll moment vanishes on the law; free below cut-in, at 0.75 m/s, it is 100 U^2.
    """
    row = ways(drive_findings(hold="dump", dump={"power": "20 kW", "duration": "1 d"}, torque_limit="2 kN m")).rows[2]
    assert [cell.replace("\u202f", " ") for cell in row[1:]] == [
        "800 N m", "7.68 kN", "56.2 N m", "8.0 m/s", "9.3 m/s", "yes",
    ]  # fmt: skip


def test_another_way_than_recommended_and_one_that_does_not_hold_are_said() -> None:
    asked = said(drive_findings(hold="speed up", torque_limit="1.6 kN m"))
    assert "The scheme asks for another way, to let it speed up" in asked
    unheld = said(drive_findings(hold="dump"))
    assert "No power and no energy are counted there" in unheld
    none = said(drive_findings(law="fixed speed", fixed_speed="60 rpm", rated_power="1 kW"))
    assert "the way that lasts longest" in none


def test_without_inertia_or_brake_the_reader_learns_why() -> None:
    bare = said(drive_findings())
    assert "loss of load | not reckoned | rotor_inertia is not given." in bare
    assert "braking | not reckoned | rotor_inertia is not given." in bare
    spinning = said(drive_findings(rotor_inertia="20 kg m2"))
    assert "braking | not reckoned | no brake is given." in spinning
    assert "No brake is given: after loss of load nothing stops the rotor" in spinning


def test_loss_of_load_and_braking_are_told_when_known() -> None:
    told = said(drive_findings(hold="dump", rotor_inertia="20 kg m2", brake=BRAKE))
    assert "after the load is lost" in told
    assert "within what the brake may take" in told
    assert "turns" in told
    hot = said(drive_findings(hold="dump", rotor_inertia="20 kg m2", brake={**BRAKE, "heat": "1 kJ"}))
    assert "into the brake, more than its 1 kJ" in hot
    weak = said(drive_findings(hold="dump", rotor_inertia="20 kg m2", brake={**BRAKE, "torque": "50 N m"}))
    assert "braking | does not stop" in weak


def test_voltage_and_electrical_cautions_stand_beside() -> None:
    told = said(drive_findings(magnets=MAGNETS, on_a_network=True))
    assert "V | direct, of the unloaded generator at runaway" in told
    for words in ("cannot be switched off", "islanding", "A licensed electrician and the local code decide."):
        assert words in told
    assert "The kind of generator is not given" in said(drive_findings())


def test_mass_says_that_it_is_from_memory() -> None:
    told = said(drive_findings())
    assert "wide ranges from memory" in told
    assert "gear and generator, ratio 10, for comparison" in told
    assert "gear and generator, ratio 8 |" in said(drive_findings(gear={"ratio": 8.0}))


@pytest.mark.parametrize("change", [{"slowest_answered": 0.1}, {"slowest_answered": 0.25}])
def test_a_start_in_the_slowest_water_known_is_not_told_as_exact(change: dict[str, Any]) -> None:
    assert "no friction and no cogging are given" in said(drive_findings())
    found = drive_findings(gear={"ratio": 8.0, "standstill_torque": "1 N m"})
    found = dataclasses.replace(found, control=dataclasses.replace(found.control, **change))
    assert ("0.25 m/s or less" in said(found)) == (change["slowest_answered"] == 0.25)
