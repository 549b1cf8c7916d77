"""The supply page in process: its numbers are the commands' JSON, its hours add up, it says what lacks."""

from __future__ import annotations

import datetime
import json
from pathlib import Path
from typing import Any, ClassVar

import pytest
from nicegui import Client as Kit
from typer.testing import CliRunner

from racewright.cli.app import app
from racewright.desk import look
from racewright.desk.answer import answer_page
from racewright.desk.api.app import make_api
from racewright.desk.desk import Desk
from racewright.desk.keeper.keeper import Keeper
from racewright.desk.keeper.keys import meaning_of
from racewright.desk.pages import supply as page
from racewright.desk.pages.supply import SupplyOptions
from racewright.desk.parts.supply_calendar import month_sums
from racewright.desk.parts.supply_day_view import drawn
from racewright.desk.parts.supply_fields import keys_of
from racewright.desk.parts.supply_live import headline
from racewright.desk.parts.supply_read import money, range_of, sum_of
from racewright.dossier import format as fmt
from racewright.errors import InputError
from racewright.scheme import load_scheme
from tests.desk.client import Client
from tests.desk.common import example

SUN = """
[community.landing.supply.sun]
file = "sun.csv"
zone = "UTC"
capital = "9000 EUR"
source = "invented"
"""


@pytest.fixture(scope="module")
def scheme(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return example(tmp_path_factory.mktemp("supply"))


@pytest.fixture(scope="module")
def told(scheme: Path) -> dict[str, Any]:
    """What `supply --json` prints."""
    found: dict[str, Any] = _printed("supply", scheme)
    return found


@pytest.fixture(scope="module")
def year(scheme: Path) -> dict[str, Any]:
    """The page's main part."""
    found: dict[str, Any] = _page(scheme)
    return found


def _printed(command: str, scheme: Path) -> Any:
    ran = CliRunner().invoke(app, [command, str(scheme), "--json"])
    assert ran.exit_code == 0, ran.stderr
    return json.loads(ran.stdout)


def _page(scheme: Path, data: bytes | None = None, **options: Any) -> Any:
    return json.loads(answer_page("supply", data or scheme.read_bytes(), scheme, SupplyOptions(**options)).text)


def test_supply_upkeep_and_money_are_those_of_the_command(year: dict[str, Any], told: dict[str, Any]) -> None:
    """`racewright supply --json`, key for key."""
    for part in ("case", "count", "supply", "upkeep", "remarks"):
        assert year[part] == told[part]


def test_the_programme_is_that_of_the_command(scheme: Path, year: dict[str, Any]) -> None:
    """`racewright programme --json`, key for key."""
    assert year["programme"] == _printed("programme", scheme)["programme"]
    assert year["programme_invented"]


def test_the_api_twin_takes_the_options(scheme: Path, year: dict[str, Any]) -> None:
    """Over HTTP, from a pool that computes at once."""

    class AtOnce:
        def begin(self, job: Any, *arguments: Any, quick: bool = False) -> Any:
            return job(*arguments)

        def cancel(self, _running: Any) -> None:
            raise AssertionError("nothing runs")

        async def result(self, running: Any) -> Any:
            return running

    api = Client(make_api(Desk(Keeper(scheme), AtOnce())))  # type: ignore[arg-type]
    assert api.get("/supply").json()["supply"] == year["supply"]
    day = api.get("/supply?part=day&way=2&day=2023-07-14").json()["day"]
    assert (day["way"], day["date"], len(day["load_W"])) == (2, "2023-07-14", 24)
    assert api.get("/supply?part=day&day=yesterday").status_code == 422
    assert api.get("/supply?part=day&way=0").status_code == 422


def test_the_mean_day_and_the_calendar_are_those_of_the_year(scheme: Path, year: dict[str, Any]) -> None:
    """The way that saves most is computed anew by the hour; months and days agree with the ledger's own."""
    found = year["supply"]["year"]
    for month in (1, 6, 12):
        day = _page(scheme, part="day", month=month)["day"]
        assert day["way"] == found["fullest"] + 1
        for key in ("load_W", "machine_W", "sun_W", "giving_W", "taking_W", "sets_W", "unserved_W"):
            assert day[key] == pytest.approx(found["days"][key][month - 1], abs=1e-6)
    calendar = _page(scheme, part="calendar")["calendar"]
    assert [calendar["alone_m3"], calendar["here_m3"]] == found["fuel_by_day_m3"]
    assert calendar["first_day_d"] == found["first_day_d"]
    here, alone = month_sums(calendar)
    assert sum(here) == pytest.approx(found["rows"][found["fullest"]]["year"]["fuel_m3"])
    assert sum(alone) == pytest.approx(found["rows"][0]["year"]["fuel_m3"])


def test_every_way_adds_up_to_its_year(scheme: Path, year: dict[str, Any]) -> None:
    """Fuel of the calendar's days is the row's fuel, whichever way is asked for."""
    for number, row in enumerate(year["supply"]["year"]["rows"], 1):
        calendar = _page(scheme, part="calendar", way=number)["calendar"]
        assert calendar["sentence"] == row["sentence"]
        assert sum(calendar["here_m3"]) == pytest.approx(row["year"]["fuel_m3"])


def test_the_power_of_a_day_balances(scheme: Path) -> None:
    """Load = machine + sun + out of the battery - into it + sets + what is not served, hour by hour."""
    calendar = _page(scheme, part="calendar")["calendar"]
    moved = 0.0
    for date in (calendar["most"], calendar["least"], "2023-05-10"):
        day = _page(scheme, part="day", day=datetime.date.fromisoformat(date))["day"]
        for i, load in enumerate(day["load_W"]):
            given = sum(day[key][i] for key in ("machine_W", "sun_W", "giving_W", "sets_W", "unserved_W"))
            assert given - day["taking_W"][i] == pytest.approx(load, abs=1e-6)
        at = (datetime.date.fromisoformat(date) - datetime.date(1970, 1, 1)).days - calendar["first_day_d"]
        assert day["fuel_m3"] == calendar["here_m3"][at]
        moved += sum(day["taking_W"])
    assert moved > 0.0


def test_the_most_and_the_least_day_are_so(scheme: Path) -> None:
    calendar = _page(scheme, part="calendar")["calendar"]
    first = datetime.date(1970, 1, 1) + datetime.timedelta(days=calendar["first_day_d"])
    most, least = ((datetime.date.fromisoformat(calendar[end]) - first).days for end in ("most", "least"))
    assert calendar["here_m3"][most] == max(calendar["here_m3"])
    assert calendar["here_m3"][least] == min(calendar["here_m3"])


@pytest.mark.parametrize("options", [{"way": 9}, {"day": datetime.date(2019, 1, 1)}])
def test_what_is_not_there_is_refused(scheme: Path, options: dict[str, Any]) -> None:
    with pytest.raises(InputError, match=r"no way of supply 9; the case has 4|2019-01-01 is no day"):
        _page(scheme, part="day", **options)


def test_a_changed_clock_leaves_a_day_of_other_length(scheme: Path) -> None:
    """On a clock that is put forward the day has 23 hours, counted on from midnight."""
    data = scheme.read_bytes().replace(b'zone = "UTC"               #', b'zone = "Pacific/Auckland" #')
    assert data != scheme.read_bytes()
    day = _page(scheme, data, part="day", day=datetime.date(2023, 9, 24))["day"]
    assert day["hour_h"] == list(range(23))
    first = _page(scheme, data, part="day", day=datetime.date(2023, 1, 1))["day"]
    assert first["hour_h"] == list(range(13, 24))


def test_ways_with_sun_stand_beside_the_others(scheme: Path, place: Kit) -> None:
    """A profile of panels that give 6 kW from 6 to 18 h; the page draws its hours."""
    begin = datetime.datetime(2023, 1, 1)
    stamps = [begin + datetime.timedelta(hours=i) for i in range(8760)]
    lines = [f"{t:%Y-%m-%d %H:%M},{6 if 6 <= t.hour < 18 else 0}" for t in stamps]
    (scheme.parent / "sun.csv").write_text("time,power\n" + "\n".join(lines) + "\n")
    data = scheme.read_bytes() + SUN.encode()
    found = _page(scheme, data)
    rows = [row["sentence"] for row in found["supply"]["year"]["rows"]]
    assert sum("sun" in row for row in rows) == sum("Machine" in row and "sun" not in row for row in rows) == 3
    assert not any(m["part"] == "the sun" for m in found["missing"])
    day = _page(scheme, data, part="day", way=len(rows), month=6)["day"]
    assert max(day["sun_W"]) > 1000.0
    drawn(day)
    names = [trace["name"] for e in place.elements.values() for trace in e.props.get("options", {}).get("data", [])]
    assert {"machine", "sun", "diesel sets", "load"} <= set(names)


def test_the_headline_shows_the_figures_and_their_change(year: dict[str, Any], place: Kit) -> None:
    """Beside a saved version with a tenth more fuel saved and another net present value."""
    headline(year, {})
    found = year["supply"]
    full = found["year"]["rows"][found["year"]["fullest"]]
    said = _text(place)
    assert fmt.quantity(full["fuel_saved_m3"], fmt.FUEL) in said
    assert range_of(found["band"]["fuel_saved_m3"], fmt.FUEL) in said
    plan = next(row for row in found["money"]["rows"] if row["sentence"] == full["sentence"])
    assert sum_of(plan["net_present_value_EUR"], "EUR") in said
    assert "against the saved version" not in said
    assert all(sentence in said for sentence in year["invented"])
    saved = json.loads(json.dumps(year))
    saved["supply"]["year"]["rows"][found["year"]["fullest"]]["fuel_saved_m3"] = full["fuel_saved_m3"] / 1.1
    headline(year, saved)
    assert "+10.0\u202f% against the saved version" in _text(place)
    assert "as in the saved version" in _text(place)


def test_real_and_nominal_money_have_no_difference(year: dict[str, Any], place: Kit) -> None:
    """A saved version in other terms leaves no ghost on cost and worth."""
    saved = json.loads(json.dumps(year))
    saved["supply"]["money"]["terms"] = "EUR, nominal"
    for row in saved["supply"]["money"]["rows"]:
        row["net_present_value_EUR"] += 1e4
    headline(year, saved)
    assert "EUR against the saved version" not in _text(place)


def test_the_whole_page_builds(year: dict[str, Any], place: Kit) -> None:
    page.view(_screen(), year)
    said = _text(place)
    for row in year["supply"]["year"]["rows"]:
        assert row["sentence"] in said
    assert "Measure fuel saved first" in said
    assert "Costs, times, chances and prize are invented." in said
    for step in year["programme"]["programme"]["steps"]:
        assert sum_of(step["cost"]["amount_EUR"], "EUR") in said


def test_what_lacks_is_said(tmp_path: Path, place: Kit) -> None:
    """A community without an hourly year, and a case without a community."""
    scheme = example(tmp_path)
    text = scheme.read_text().replace('community = "landing"', "")
    bare = _page(scheme, text.encode())
    assert bare["supply"] is None
    assert bare["programme"] is not None
    page.view(_screen(), bare)
    assert 'Add a [community.NAME] table, and community = "NAME" to the case.' in _text(place)
    assert "Steps of the programme" in _text(place)


def test_no_hourly_year_still_has_the_cost_against_diesel(tmp_path: Path, place: Kit) -> None:
    scheme = example(tmp_path)
    text = scheme.read_text()
    start, end = text.index("# ---- the hourly year"), text.index("[community.landing.carrier.small_plane]")
    found = _page(scheme, (text[:start] + text[end:]).encode())
    assert (found["supply"], found["comparison"] is None) == (None, False)
    assert found["missing"][0]["needs"].startswith("Add a [community.landing.supply] table")
    assert _page(scheme, (text[:start] + text[end:]).encode(), part="day")["day"] is None
    page.view(_screen(), found)
    assert "A kilowatt-hour against diesel" in _text(place)


def test_fields_are_keys_that_can_be_set(scheme: Path) -> None:
    """Each has a meaning; one alone is a whole edit; a wrong one is refused with its key."""
    loaded = load_scheme(scheme)
    keys = [key for key, _label in keys_of(loaded.scheme, "first_unit")]
    assert "community.landing.diesel.fuel_price" in keys
    assert "community.landing.supply.fuel.leg.boat.trip" in keys
    assert "community.landing.supply.battery.capacity" in keys
    assert all(meaning_of(key) is not None for key in keys)
    keeper = Keeper(scheme)
    keeper.edit({"community.landing.supply.fuel.leg.boat.trip": "80 EUR"}, keeper.revision)
    with pytest.raises(InputError) as caught:
        keeper.edit({"community.landing.supply.battery.capacity": "40 kW"}, keeper.revision)
    assert caught.value.key == "community.landing.supply.battery.capacity"
    assert keys_of(loaded.scheme, "no such case") == []


def test_money_is_read_by_any_currency() -> None:
    assert money({"cost_NPR_per_J": 2.0}, "cost", "NPR", "/J") == 2.0
    assert money({"cost_currency": 3.0}, "cost", "NPR") == 3.0
    with pytest.raises(KeyError, match="cost in NPR"):
        money({"cost_EUR": 3.0}, "cost", "NPR")


def test_numbers_in_words() -> None:
    assert (
        range_of({"p10": -17084.2, "p90": 52672.7}, fmt.money("EUR")) == "\u221217\u202f100 to 52\u202f700\u202fEUR"
    )
    assert look.against_saved(2.0, None, 1) == ""
    assert look.against_saved(0.97, 1.0, 1) == "\u22123.0\u202f% against the saved version"


class _Screen:
    """As much of a screen as a view reads."""

    drawings: ClassVar[dict[str, Any]] = {}
    closed = False


def _screen() -> Any:
    return _Screen()


def _text(client: Kit) -> str:
    return "\n".join(str(getattr(element, "text", "")) for element in client.elements.values())
