"""The ways of supply as sentences with their year, and how it differs from year to year."""

from __future__ import annotations

from typing import Any

from racewright.desk import look
from racewright.desk.parts.supply_read import QUANTILES
from racewright.dossier import format as fmt

HOURS = (fmt.Scale("h", 3600.0),)


def ways(data: dict[str, Any]) -> None:
    """One row for each way, the sets alone first; what the machines give and what fuel costs beside."""
    supply = data["supply"]
    found = supply["year"]
    with look.section("Ways of supply"):
        columns = [look.Column("way"), *(look.Column(name, number=True) for name in _NAMES)]
        rows = [_row(i, row, carried=found["delivered"] is not None) for i, row in enumerate(found["rows"], 1)]
        look.table(f"The same year, {found['year_yr']}, run hour by hour in every way", columns, rows)
        look.note(_behind(supply, data["count"]), "soft")
        if not any("sun" in row["sentence"] for row in found["rows"]):
            look.note("No solar profile is given; with one, the same ways with sun stand beside these.", "soft")


_NAMES = ("fuel", "fuel saved", "trips", "trips saved", "without supply", "unused energy", "all sets off")


def _row(number: int, row: dict[str, Any], *, carried: bool) -> list[str]:
    year = row["year"]
    return [
        f"{number}. {row['sentence']}",
        fmt.quantity(year["fuel_m3"], fmt.FUEL),
        fmt.quantity(row["fuel_saved_m3"], fmt.FUEL),
        str(row["trips"]) if carried else "not given",
        str(row["trips_saved"]) if carried else "not given",
        fmt.fixed(year["unserved_time_s"], HOURS, 0),
        fmt.quantity(year["unused_energy_J"], fmt.ENERGY),
        fmt.fixed(year["no_set_time_s"], HOURS, 0),
    ]


def _behind(supply: dict[str, Any], count: int) -> str:
    line = supply["machines"]
    machine = "The machine gives" if count == 1 else f"The {count} machines give"
    return (
        f"{machine} {fmt.quantity(line['sent_energy_J'], fmt.ENERGY)}, of which line and converter take "
        f"{fmt.quantity(line['line_loss_J'], fmt.ENERGY)}; {line['stops']} stops were drawn, able to run "
        f"{fmt.fixed(line['running'], fmt.SHARE, 0)} of the time. The water is that of {line['water_year_yr']}."
    )


def drawn_years(band: dict[str, Any]) -> None:
    """P10, P50 and P90 of the drawn years."""
    with look.section("From year to year"):
        columns = [look.Column("in a year"), *(look.Column(name.upper(), number=True) for name in QUANTILES)]
        table = (
            ("fuel", "fuel_m3", fmt.FUEL),
            ("fuel saved", "fuel_saved_m3", fmt.FUEL),
            ("without supply", "unserved_time_s", HOURS),
            ("unused energy", "unused_energy_J", fmt.ENERGY),
            ("energy used of machine, sun and battery", "used_energy_J", fmt.ENERGY),
            ("able to run", "running", fmt.SHARE),
        )
        rows = [[name, *(fmt.quantity(band[key][q], scales) for q in QUANTILES)] for name, key, scales in table]
        look.table(
            f"{band['years']} years drawn: load, power curve, stops, and the water of {band['water_years']} recorded"
            " years; 10, 50 and 90 of 100 lie below",
            columns,
            rows,
        )
        look.note(band["sentence"], "soft")
