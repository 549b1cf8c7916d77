"""Claims: what they lack is said, what contradicts itself is refused, and their order."""

from __future__ import annotations

import datetime as dt
import math

import pytest

from racewright.errors import InputError
from racewright.growth.claims import CheckedClaim, Claim, ClaimTest, claim_sheet
from racewright.uncertainty import Band

MODEL_TEST = ClaimTest("channel trials, runs 12 to 19", dt.date(2026, 5, 14), "model")
BAND = Band(450.0, 500.0, 550.0, "budget of the trials")


def _claim(**changed: object) -> Claim:
    row = {
        "name": "shaft power",
        "step": "model",
        "value": 500.0,
        "unit": "W",
        "basis": "measured by us",
        "band": BAND,
        "last_test": MODEL_TEST,
        "next_test": "a second channel",
    }
    return Claim(**{**row, **changed})  # type: ignore[arg-type]


def _one(**changed: object) -> CheckedClaim:
    (found,) = claim_sheet([_claim(**changed)]).claims
    return found


def _texts(**changed: object) -> dict[str, str]:
    return {lack.text: lack.severity for lack in _one(**changed).lacks}


def test_a_whole_claim_lacks_nothing() -> None:
    found = _one()
    assert found.lacks == ()
    assert found.holds_up


def test_measured_by_us_names_its_test() -> None:
    told = _texts(last_test=None)
    assert told["Said to be measured by us, and no test is named: name it, or call it computed."] == "warning"
    assert not _one(last_test=None).holds_up


def test_measured_on_another_step_is_computed() -> None:
    told = _texts(step="tidal unit")
    assert any(text.startswith("Measured on another step") for text in told)
    assert not _one(step="tidal unit").holds_up


def test_a_band_or_the_reason_for_its_lack() -> None:
    assert _texts(band=None) == {"No band, and no reason for its lack.": "warning"}
    told = _one(band=None, why_no_band="one reading only")
    assert [lack.severity for lack in told.lacks] == ["note"]
    assert told.holds_up


@pytest.mark.parametrize(("basis", "severity"), [("published", "warning"), ("computed", "caution")])
def test_a_source_is_wanted(basis: str, severity: str) -> None:
    lacks = _one(basis=basis, source="").lacks
    assert lacks[0].severity == severity
    sourced = _one(basis=basis, source="the stage at its design point").lacks
    assert severity not in {lack.severity for lack in sourced}


def test_memory_is_always_cautioned() -> None:
    assert not _one(basis="memory", source="the founder's").holds_up


def test_a_next_test_is_wanted_most_where_none_was() -> None:
    assert _texts(next_test=" ") == {"No next test is planned.": "note"}
    told = _texts(next_test="", last_test=None, basis="computed", source="the stage")
    assert told["No next test is planned."] == "caution"


def test_lacks_come_gravest_first_and_name_their_claim() -> None:
    sheet = claim_sheet([_claim(band=None, last_test=None, next_test=""), _claim(name="thrust", next_test="")])
    rank = {"warning": 0, "caution": 1, "note": 2}
    graveness = [rank[told.severity] for told in sheet.remarks]
    assert graveness == sorted(graveness)
    assert {told.about for told in sheet.remarks} == {"shaft power, model", "thrust, model"}


def test_order_by_step_then_basis_then_band() -> None:
    claims = [
        _claim(name="cost", step="elsewhere", basis="memory", band=None, why_no_band="hearsay", unit="EUR"),
        _claim(name="energy", step="tidal unit", basis="computed", source="the ledger"),
        _claim(name="thrust", basis="computed", source="the stage"),
        _claim(name="torque", basis="measured by us", band=Band(400.0, 500.0, 600.0, "wide")),
        _claim(name="power", basis="measured by us"),
        _claim(name="no band", basis="measured by us", band=None, why_no_band="one reading"),
    ]
    sheet = claim_sheet(claims, steps=("model", "river unit", "tidal unit"))
    assert [one.claim.name for one in sheet.claims] == ["power", "torque", "no band", "thrust", "energy", "cost"]
    assert claim_sheet(claims[::-1], steps=("model", "river unit", "tidal unit")) == sheet


def test_refused() -> None:
    for changed in (
        {"name": ""},
        {"step": " "},
        {"basis": "hope"},
        {"value": math.nan},
        {"value": math.inf},
        {"value": True},
        {"value": 600.0},
        {"band": Band(math.nan, 500.0, 550.0, "broken")},
        {"why_no_band": "but there is one"},
    ):
        with pytest.raises(InputError):
            _claim(**changed)
    with pytest.raises(InputError, match="claimed twice"):
        claim_sheet([_claim(), _claim(value=510.0)])
    with pytest.raises(InputError, match="name"):
        ClaimTest(" ", dt.date(2026, 5, 14), "model")


def test_no_claims_is_an_empty_sheet() -> None:
    assert claim_sheet([]) == claim_sheet(())
    assert claim_sheet([]).claims == ()
