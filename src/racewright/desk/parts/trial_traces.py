"""The part of the trials' page that shows raw traces: choose run and channel, look closer."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from nicegui import ui

from racewright.desk import look
from racewright.desk.look.palette import NAMED
from racewright.desk.parts.trial_store import trace
from racewright.dossier import format as fmt

if TYPE_CHECKING:
    from racewright.desk.screen import Screen


def traces(screen: Screen, store: dict[str, Any]) -> None:
    """Build it."""
    with look.section("Raw traces"):
        if store["reason"]:
            look.note(store["reason"], "safety")
        if store["runs"]:
            _Traces(screen, store["runs"])
        else:
            look.empty(
                "The campaign's store holds no run yet, so there are no raw traces to see.",
                "Take the logger's files in, above: they are kept as logged beside the scheme; readings that"
                " are not believed are flagged. 'racewright trials import' does the same.",
            )


class _Traces:
    """One trace at a time."""

    def __init__(self, screen: Screen, runs: list[dict[str, Any]]) -> None:
        self._screen = screen
        self._runs = {r["run"]: r for r in runs}
        asked: Any = screen.options  # the page's own options, which name run and channel
        wanted = asked.run
        run = wanted if wanted in self._runs else runs[0]["run"]
        with look.fields():
            self._run = _choice("run", list(self._runs), run, self._other_run)
            self._channel = _choice("channel", self._channels(run), asked.channel, self._whole)
        with look.knobs():
            look.button("Whole run", self._whole, title="show the run from its first row to its last")
        look.note(
            "Draw a box over the trace to look closer. Every least and greatest value is kept at any zoom.", "soft"
        )
        self._place = ui.element("div")
        self._whole()

    def _channels(self, run: str) -> list[str]:
        return [c["name"] for c in self._runs[run]["channels"]]

    def _other_run(self) -> None:
        names = self._channels(str(self._run.value))
        self._channel.set_options(names, value=self._channel.value if self._channel.value in names else names[0])
        self._whole()

    def _whole(self) -> None:
        self._ask(0.0, None)

    def _ask(self, start: float, end: float | None) -> None:
        run, channel = str(self._run.value), str(self._channel.value)
        with self._place:
            self._screen.further("trace", trace, self._show, run=run, channel=channel, start=start, end=end)

    def _show(self, answer: dict[str, Any]) -> None:
        found = answer["trace"]
        self._place.clear()
        if found is None:
            return
        with self._place:
            _drawn(found).on("plotly_relayout", self._zoomed)

    def _zoomed(self, event: Any) -> None:
        told = event.args if isinstance(event.args, dict) else {}
        start, end = told.get("xaxis.range[0]"), told.get("xaxis.range[1]")
        if isinstance(start, int | float) and isinstance(end, int | float):
            self._ask(max(0.0, float(start)), max(0.0, float(end)))
        elif told.get("xaxis.autorange"):
            self._whole()


def _choice(label: str, names: list[str], value: str, moved: Any) -> Any:
    made = ui.select(names, value=value if value in names else names[0], label=label)
    made.props("outlined dense stack-label options-dense")
    made.on_value_change(lambda _event: moved())
    return made


def _drawn(found: dict[str, Any]) -> ui.plotly:
    """Least and greatest of each stretch as one line; flagged spans shaded."""
    time = [t for t in found["time_s"] for _end in (0, 1)]
    value = [v for pair in zip(found["least"], found["greatest"], strict=True) for v in pair]
    shapes = [
        {
            "type": "rect",
            "xref": "x",
            "yref": "paper",
            "x0": f["start_s"],
            "x1": f["end_s"],
            "y0": 0,
            "y1": 1,
            "fillcolor": NAMED["second"],
            "opacity": 0.28,
            "line": {"width": 1, "color": NAMED["second"]},
            "layer": "below",
        }
        for f in found["flags"]
    ]
    reasons = sorted({reason for f in found["flags"] for reason in f["reason"].split(", ")})
    spans = "1 flagged span" if found["flagged"] == 1 else f"{found['flagged']} flagged spans"
    flagged = f"{spans} in sight ({', '.join(reasons)})" if reasons else "nothing flagged in sight"
    return look.chart(
        f"{found['channel']} of run {found['run']}, {fmt.number(found['rows'], 0)} rows as logged; {flagged}",
        [look.Line(time, value, "", "accent")],
        x="time after the run's first row, s",
        y=f"{found['channel']}, {found['unit']}",
        name="trace",
        height=340,
        more={"shapes": shapes, "hovermode": "closest"},
    )
