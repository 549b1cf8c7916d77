"""Claims: what they lack is said, what contradicts itself is refused, and their order."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from racewright.errors import InputError
from racewright.growth.claims import CheckedClaim, Claim, claim_sheet
from racewright.growth.headline_figures import filled, headline_claims, headline_figures
from racewright.uncertainty import Band
from tests.growth.steps import RIVER

MODEL_TEST = "channel trials, runs 12 to 19, 2026-05-14"
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
    assert found.stands


def test_measured_by_us_names_its_test() -> None:
    told = _texts(last_test="")
    assert told["Said to be measured by us, and no test is named: name it, or call it computed."] == "warning"
    assert not _one(last_test="").stands


def test_measured_on_another_step_is_computed() -> None:
    assert _one(tested_step="model").lacks == ()
    told = _texts(step="tidal unit", tested_step="model")
    assert any(text.startswith("Measured on another step") for text in told)
    assert not _one(step="tidal unit", tested_step="model").stands


def test_a_band_or_the_reason_for_its_lack() -> None:
    assert _texts(band=None) == {"No band, and no reason for its lack.": "warning"}
    told = _one(band=None, why_no_band="one reading only")
    assert [lack.severity for lack in told.lacks] == ["note"]
    assert told.stands


def test_a_figure_is_wanted() -> None:
    """Its band is not asked for as well."""
    assert _texts(value=None, band=None) == {"No figure yet: state one, or name one that is computed.": "warning"}


@pytest.mark.parametrize(("basis", "severity"), [("published", "warning"), ("computed", "caution")])
def test_a_source_is_wanted(basis: str, severity: str) -> None:
    lacks = _one(basis=basis, source="").lacks
    assert lacks[0].severity == severity
    assert _one(basis=basis, source="the stage at its design point").lacks == ()


def test_memory_is_always_cautioned() -> None:
    assert not _one(basis="memory", source="the founder's").stands


def test_what_we_did_not_test_says_so() -> None:
    told = _texts(basis="published", source="a book", last_test="")
    assert told == {"Not yet tested by us on what it is claimed for.": "note"}


def test_a_next_test_is_wanted_most_where_none_was() -> None:
    assert _texts(next_test=" ") == {"No next test is planned.": "note"}
    told = _texts(next_test="", last_test="", basis="computed", source="the stage")
    assert told["No test of it was made and none is planned."] == "caution"


def test_a_test_has_a_date() -> None:
    assert _texts(last_test="channel trials, runs 12 to 19") == {"The last test has no date.": "note"}


def test_lacks_come_gravest_first_and_name_their_claim() -> None:
    sheet = claim_sheet([_claim(band=None, last_test="", next_test=""), _claim(name="thrust", next_test="", step="")])
    rank = {"warning": 0, "caution": 1, "note": 2}
    graveness = [rank[told.severity] for told in sheet.remarks]
    assert graveness == sorted(graveness)
    assert {told.about for told in sheet.remarks} == {"shaft power, model", "thrust"}


def test_order_by_step_then_basis_then_band() -> None:
    claims = [
        _claim(name="cost", step="elsewhere", basis="memory", band=None, why_no_band="hearsay", unit="EUR"),
        _claim(name="energy", step="tidal unit", basis="computed", source="the ledger"),
        _claim(name="thrust", basis="computed", source="the stage"),
        _claim(name="torque", basis="measured by us", band=Band(400.0, 500.0, 600.0, "wide")),
        _claim(name="power", basis="measured by us"),
        _claim(name="of the whole", step=""),
        _claim(name="no band", basis="measured by us", band=None, why_no_band="one reading"),
    ]
    sheet = claim_sheet(claims, steps=("model", "river unit", "tidal unit"))
    names = [one.claim.name for one in sheet.claims]
    assert names == ["of the whole", "power", "torque", "no band", "thrust", "energy", "cost"]
    assert claim_sheet(claims[::-1], steps=("model", "river unit", "tidal unit")) == sheet


def test_refused() -> None:
    for changed in (
        {"name": ""},
        {"basis": "hope"},
        {"value": math.nan},
        {"value": math.inf},
        {"value": True},
        {"value": 600.0},
        {"value": None},
        {"band": Band(math.nan, 500.0, 550.0, "broken")},
        {"why_no_band": "but there is one"},
        {"last_test": "", "tested_step": "model"},
    ):
        with pytest.raises(InputError):
            _claim(**changed)
    with pytest.raises(InputError, match="claimed twice for model"):
        claim_sheet([_claim(), _claim(value=510.0)])


def test_no_claims_is_an_empty_sheet() -> None:
    assert claim_sheet([]).claims == ()
    assert claim_sheet([]).remarks == ()


def test_headline_figures_carry_the_prior_band_of_power() -> None:
    found = headline_figures(RIVER)
    for name in ("shaft power at design", "electrical power at design", "power coefficient at design"):
        figure = found[name]
        assert figure.band is not None
        assert figure.band.low / figure.value == pytest.approx(0.75, rel=1e-12)
        assert figure.band.high / figure.value == pytest.approx(1.25, rel=1e-12)
    assert found["electrical power at design"].value == pytest.approx(0.85 * RIVER.point.shaft_power, rel=1e-12)
    assert found["thrust at design"].band is None
    dead = headline_figures(replace(RIVER, point=replace(RIVER.point, shaft_power=0.0)))
    assert dead["power coefficient at design"].band is None


def test_a_claim_without_a_value_takes_the_computed_one() -> None:
    figures = headline_figures(RIVER)
    name = "power coefficient at design"
    found = filled(Claim(name, "computed", None, "1", next_test="the river, 2027"), figures)
    assert (found.value, found.unit, found.band) == (figures[name].value, "", figures[name].band)
    assert found.source == "the stage solved at the design point"
    own = Claim(name, "published", 0.5, source="a book", why_no_band="none printed")
    assert filled(own, figures) is own
    unknown = Claim("good will", "memory", None)
    assert filled(unknown, figures) is unknown
    measured = Claim(name, "measured by us", None, last_test=MODEL_TEST)
    assert filled(measured, figures) is measured  # a computed figure is not a measured one
    assert not claim_sheet([measured]).claims[0].stands


def test_computed_claims_of_a_step_lack_only_tests() -> None:
    sheet = claim_sheet(headline_claims(RIVER, "river unit"), steps=("river unit",))
    assert len(sheet.claims) == len(headline_figures(RIVER))
    assert {told.severity for told in sheet.remarks} == {"caution", "note"}
    assert all("test" in told.text or "reason is stated" in told.text for told in sheet.remarks)
