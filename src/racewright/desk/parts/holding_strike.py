"""The strikes on the screen: one is chosen, played, and told in words beside a machine that is rigidly fixed."""

from __future__ import annotations

from functools import partial
from typing import Any

from nicegui import ui
from nicegui.element import Element

from racewright.desk import look
from racewright.desk.parts.holding_safety import beside
from racewright.dossier import format as fmt

_SECONDS = (fmt.Scale("s", 1.0),)
_MASS = (fmt.Scale("kg", 1.0), fmt.Scale("t", 1e3))
_IMPULSE = (fmt.Scale(f"N{fmt.THIN}s", 1.0), fmt.Scale(f"kN{fmt.THIN}s", 1e3))
_WORK = (fmt.Scale("J", 1.0), fmt.Scale("kJ", 1e3), fmt.Scale("MJ", 1e6))
TWO = (
    "A strike has two answers, kept apart. The first blow presses on the place struck for milliseconds, and no line"
    " softens it. The lines answer seconds later, with a slow tension that says nothing of the blow."
)


class StrikePlayer(Element, component="holding_strike.js"):
    """Log and machine from above, with the charts of both time scales."""

    def show(self, play: dict[str, Any], way: dict[str, Any], told: dict[str, Any], ending: str) -> None:
        """Show one way of one strike.

        Parameters
        ----------
        play, way : dict
            Decoded `StrikePlay` and one of its ways.
        told : dict
            The strike as `strike` prints it.
        ending : str
        """
        slow = told["slow_tension"]
        self._props.update(
            outline=play["outline_m"],
            attitude=play["attitude"],
            length=play["length_m"],
            diameter=play["diameter_m"],
            point=play["point_m"],
            normal=play["normal"],
            pulses=play["pulses"],
            way=way,
            slow=None if slow is None else [slow["low_SI"], slow["high_SI"]],
            limit=told["capacity_N"],
            ending=ending,
            place="" if told["first_blow"] is None else told["first_blow"]["place"],
        )
        self.update()


def span(figure: dict[str, Any] | None) -> str:
    """A force's range in words."""
    if figure is None:
        return "–"
    low, high = figure["low_SI"], figure["high_SI"]
    if high - low < 0.005 * abs(high):
        return fmt.quantity(high, fmt.FORCE)
    return f"{fmt.quantity(low, fmt.FORCE)} to {fmt.quantity(high, fmt.FORCE)}"


def outcome(one: dict[str, Any]) -> str:
    """What became of the log at one friction, in words."""
    cleared = one["time_to_clear_s"]
    after = "is not cleared" if cleared is None else f"is clear after {fmt.fixed(cleared, _SECONDS, 1)}"
    return (
        f"{one['ending']}; the log {after}, the machine moves {fmt.fixed(one['shift_m'], fmt.LENGTH, 2)} and yaws"
        f" {fmt.fixed(one['yaw_rad'], fmt.ANGLE, 0)}"
    )


def strikes(data: dict[str, Any]) -> None:
    """A section with every strike that was computed, one of them open.

    Parameters
    ----------
    data : dict
        Of part 'struck', decoded.
    """
    logs, plays = data["strikes"]["logs"], data["plays"]
    with look.section("A strike on its two time scales"):
        if not logs:
            look.empty(
                "No strike in this holding yet.",
                "Add a [holding.NAME.strike.NAME] table with length, diameter and density of a log that may come.",
            )
            return
        look.cautions(look.sentences_of(TWO))
        knobs = ui.element("div").classes("knobs").props('role=group aria-label="strikes"')
        place = ui.element("div").classes("holding-stack")
        made: list[Any] = []

        def choose(n: int) -> None:
            for i, knob in enumerate(made):
                knob.props["aria-pressed"] = "true" if i == n else "false"
                knob.classes(add="strong" if i == n else "", remove="" if i == n else "strong")
                knob.update()
            place.clear()
            with place:
                _one(logs[n], plays[n])

        with knobs:
            for n, log in enumerate(logs):
                made.append(look.button(log["name"], partial(choose, n)))
        choose(max(range(len(logs)), key=lambda n: _force(logs[n])))


def _force(log: dict[str, Any]) -> float:
    blow = log["first_blow"]
    return 0.0 if blow is None else float(blow["force"]["high_SI"])


def _one(told: dict[str, Any], play: dict[str, Any]) -> None:
    _figures(told)
    safety = [told["safety"]]
    if told["first_blow"] is not None:
        safety += [told["first_blow"]["safety"], told["slow_tension"]["safety"]]
    outcomes = {o["friction"]: o for o in told["outcomes"]}
    ways = [w for w in play["ways"] if w["friction"] in outcomes]
    if ways:
        _played(told, play, ways, outcomes)
        safety += [outcomes[ways[0]["friction"]]["safety"]]
    else:
        over = told["over_m"]
        ending = f"drifts {over:.2f} m over the machine" if over is not None else told["outcomes"][0]["ending"]
        look.note(f"{told['name']}: {ending}. There is nothing to play.")
    if told["outcomes"]:
        _frictions(told)
    if told["beside_fixed"]:
        _fixed(told)
    beside(safety)


def _figures(told: dict[str, Any]) -> None:
    blow, slow = told["first_blow"], told["slow_tension"]
    with look.figures():
        look.figure(
            "Log",
            fmt.quantity(told["log_mass_kg"], _MASS),
            say=f"in {fmt.fixed(told['stream_speed_m_per_s'], fmt.SPEED, 2)} of stream; machine with its water"
            f" {fmt.quantity(told['machine_mass_kg'], _MASS)}",
        )
        if blow is None or slow is None:
            return
        lasts = [fmt.number(1e3 * b["duration_s"], 1) for b in blow["blows"]]
        look.figure(
            "First blow, at the place struck",
            span(blow["force"]),
            say=f"{blow['place']}; lasts {min(lasts, key=float)} to {max(lasts, key=float)}{fmt.THIN}ms by published"
            " contact",
        )
        capacity = told["capacity_N"]
        holds = "its first link's capacity is not known"
        if capacity is not None:
            holds = f"the first link, {fmt.quantity(capacity, fmt.FORCE)}, {'parts' if told['parts'] else 'holds'}"
        look.figure(
            "Slow line tension, seconds later",
            span(slow),
            say=f"greatest after {fmt.fixed(told['slow_time_s'], _SECONDS, 2)}; {holds}",
        )


def _played(
    told: dict[str, Any], play: dict[str, Any], ways: list[dict[str, Any]], outcomes: dict[float, dict[str, Any]]
) -> None:
    """The player, and a choice of friction; it starts at the one nearest to the scheme's."""
    said = look.words("p", "", "note lead").props("role=status")
    names = {w["friction"]: f"{w['friction']:g}" for w in ways}
    start = min(names, key=lambda friction: abs(friction - play["friction"]))
    choice = ui.select(names, value=start, label="friction of wood on machine").props("outlined dense stack-label")
    choice.style("max-width: 14rem")
    player = StrikePlayer()

    def show(friction: float) -> None:
        way = next(w for w in ways if w["friction"] == friction)
        one = outcomes[friction]
        said.set_text(f"At friction {friction:g}: {outcome(one)}.")
        player.show(play, way, told, one["ending"])

    show(start)
    choice.on_value_change(lambda event: show(event.value))


def _frictions(told: dict[str, Any]) -> None:
    rows = [[f"{o['friction']:g}", outcome(o), str(o["touches"]), span(o["slow_tension"])] for o in told["outcomes"]]
    hangs = "hangs on friction" if told["depends_on_friction"] else "is the same at every friction"
    columns = [look.Column("friction"), look.Column("what becomes of it")]
    columns += [look.Column(name, number=True) for name in ("touches", "slow line tension")]
    look.table(f"How it ends {hangs}", columns, rows)


def _fixed(told: dict[str, Any]) -> None:
    rows = [
        [
            row["held"],
            span(row["force"]),
            fmt.quantity(row["impulse_N_s"], _IMPULSE),
            fmt.quantity(row["taken_up_J"], _WORK),
            "none: the mount bears the blow" if row["slow_tension"] is None else span(row["slow_tension"]),
            row["ending"],
            "not cleared" if row["time_to_clear_s"] is None else fmt.fixed(row["time_to_clear_s"], _SECONDS, 1),
        ]
        for row in told["beside_fixed"]
    ]
    names = ("first blow", "impulse", "energy pressed in", "slow line tension")
    columns = [
        look.Column("machine"),
        *(look.Column(name, number=True) for name in names),
        look.Column("what becomes of the log"),
        look.Column("clear after", number=True),
    ]
    look.table("The same log against the machine on its lines and rigidly fixed", columns, rows)
