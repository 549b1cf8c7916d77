"""Fuel day by day as a calendar: months beneath each other, darker days burn more; a day can be pressed."""

from __future__ import annotations

import csv
import datetime
import io
from collections.abc import Callable
from typing import Any

from nicegui import ui

from racewright.desk import look
from racewright.dossier import format as fmt

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")

CSS = """
.supply-head > * + * { margin-top: .8rem; }
.supply-head .figures, .supply-steps .figures { grid-template-columns: repeat(auto-fit, minmax(9.8rem, 1fr)); gap: 1rem 1.2rem; }
.supply-values .q-field--with-bottom { padding-bottom: 0; } .supply-values .q-field__bottom--animated { position: static; transform: none; }
.supply-key span { white-space: nowrap; }
.supply-choice { display: grid; grid-template-columns: minmax(0, 2.2fr) minmax(0, 1fr) minmax(0, 1fr) auto; gap: .6rem 1rem; align-items: center; }
.supply-choice .knobs { margin-top: 0; }
.supply-calendar { display: grid; grid-template-columns: 2.4rem repeat(31, minmax(0, 1fr)) 4.6rem 4.6rem; gap: 2px; font-size: .78rem; line-height: 1.25rem; margin-top: .5rem; }
.supply-calendar b { display: block; height: 1.25rem; background: var(--sheet); cursor: pointer; }
.supply-calendar b:hover { outline: 2px solid var(--ink); }
.supply-calendar i { display: block; height: 100%; background: var(--second); }
.supply-calendar s { text-decoration: none; color: var(--soft); overflow: visible; white-space: nowrap; }
.supply-calendar u { text-decoration: none; text-align: right; white-space: nowrap; }
.supply-title { color: var(--ink); font-weight: 700; font-size: .88rem; }
.supply-key { display: flex; align-items: center; gap: .5rem; font-size: .8rem; color: var(--soft); }
.supply-key span.ramp { width: 9rem; height: .8rem; background: linear-gradient(to right, var(--sheet), var(--second)); }
@media (max-width: 56rem) { .supply-choice { grid-template-columns: minmax(0, 1fr) minmax(0, 1fr); } .supply-choice > :first-child, .supply-choice .knobs { grid-column: 1 / -1; } }
@media (max-width: 40rem) { .supply-calendar { grid-template-columns: 1.9rem repeat(31, minmax(0, 1fr)) 3.1rem 3.4rem; gap: 1px; font-size: .7rem; } }
"""  # noqa: E501  (one rule a line)
"""Style of the page's own elements."""


def fuel_calendar(calendar: dict[str, Any], pressed: Callable[[str], Any]) -> None:
    """Build the calendar.

    Parameters
    ----------
    calendar : dict
        `FuelCalendar` of the page's data.
    pressed : callable
        Takes the day that was pressed, like '2023-02-14'.
    """
    alone, here = sum(calendar["alone_m3"]), sum(calendar["here_m3"])
    title = f"{fmt.quantity(here, fmt.FUEL)} burned, {fmt.quantity(alone, fmt.FUEL)} by the sets alone"
    with ui.element("figure").classes("drawing"):
        with ui.element("figcaption"):
            look.words("span", f"The year's fuel: {title}", "supply-title")
        made = ui.html(_squares(calendar), sanitize=False)  # numbers and dates of our own, never the user's text
        made.props["role"] = "img"
        made.props["aria-label"] = f"Calendar of fuel. {title}. {_told(calendar)}"
        made.on(
            "click",
            lambda event: pressed(str(event.args)) if event.args else None,
            js_handler="(e) => { const at = e.target.closest('[data-day]'); if (at) emit(at.dataset.day); }",
        )
        most = fmt.quantity(max(calendar["here_m3"]), fmt.FUEL)
        with ui.element("div").classes("supply-key"):
            look.words("span", f"a day: 0{fmt.THIN}L")
            look.words("span", "", "ramp")
            look.words("span", most)
        look.note(
            "Fuel in litres, months at the right beside those of the sets alone. Press a day to see its hours above.",
            "soft",
        )
        with ui.element("div").classes("saves"):
            content = _csv(calendar).encode()
            look.button("CSV", lambda: ui.download.content(content, "fuel_calendar.csv"), "copy", title="save as CSV")


def _dates(calendar: dict[str, Any]) -> list[datetime.date]:
    first = datetime.date(1970, 1, 1) + datetime.timedelta(days=calendar["first_day_d"])
    return [first + datetime.timedelta(days=i) for i in range(len(calendar["here_m3"]))]


def month_sums(calendar: dict[str, Any]) -> tuple[list[float], list[float]]:
    """Fuel by month of the calendar: in this way, and with the sets alone [m3]."""
    here, alone = [0.0] * 12, [0.0] * 12
    for date, ours, theirs in zip(_dates(calendar), calendar["here_m3"], calendar["alone_m3"], strict=True):
        here[date.month - 1] += ours
        alone[date.month - 1] += theirs
    return here, alone


def _squares(calendar: dict[str, Any]) -> str:
    dates, burned = _dates(calendar), calendar["here_m3"]
    year = dates[len(dates) // 2].year
    by_date = dict(zip(dates, burned, strict=True))
    top = max(max(burned), 1e-12)
    here, alone = month_sums(calendar)
    parts = ["<s></s>"]
    parts += [f"<s>{d if d in (1, 5, 10, 15, 20, 25, 30) else ''}</s>" for d in range(1, 32)]
    parts += ["<u>this way</u>", "<u style='color:var(--soft)'>alone</u>"]
    for month in range(1, 13):
        parts.append(f"<s>{_MONTHS[month - 1]}</s>")
        for day in range(1, 32):
            try:
                date = datetime.date(year, month, day)
            except ValueError:
                parts.append("<span></span>")
                continue
            fuel = by_date.get(date)
            if fuel is None:
                parts.append("<span></span>")
                continue
            title = f"{date}: {1e3 * fuel:.1f} L"
            shade = f"<i style='opacity:{max(0.0, fuel / top):.3f}'></i>"
            parts.append(f"<b data-day='{date}' title='{title}'>{shade}</b>")
        parts.append(f"<u>{fmt.number(1e3 * here[month - 1], 0)}</u>")
        parts.append(f"<u style='color:var(--soft)'>{fmt.number(1e3 * alone[month - 1], 0)}</u>")
    return f"<div class='supply-calendar'>{''.join(parts)}</div>"


def _told(calendar: dict[str, Any]) -> str:
    here, alone = month_sums(calendar)
    return "; ".join(
        f"{name} {fmt.number(1e3 * ours, 0)} of {fmt.number(1e3 * theirs, 0)} L"
        for name, ours, theirs in zip(_MONTHS, here, alone, strict=True)
    )


def _csv(calendar: dict[str, Any]) -> str:
    out = io.StringIO()
    write = csv.writer(out)
    write.writerow(["day", "fuel here, m3", "fuel with the sets alone, m3"])
    write.writerows(zip(map(str, _dates(calendar)), calendar["here_m3"], calendar["alone_m3"], strict=True))
    return out.getvalue()
