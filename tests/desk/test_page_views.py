"""Views built in process from made-up answers: nothing is computed, every part of the page is walked through."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

from nicegui import Client, ui

from racewright.desk.pages import dossier, neighbours, trials

_MEASURED = {"value": 0.4, "standard_uncertainty": 0.01}
_READING = {"tip_speed_ratio": {"value": 2.2}, "power_coefficient": _MEASURED}
_REGION = {
    "region": "near",
    "loads": 1,
    "readings": 1,
    "inside": 1,
    "power_residual": 0.02,
    "thrust_residual": -0.01,
    "power_spread": 0.0,
}
_TRIALS: dict[str, Any] = {
    "invented": True,
    "foulings": [{"run": "weed", "found": {"found": True, "loss": 0.05, "loss_low": 0.03, "loss_high": 0.07}}],
    "campaign": {
        "runs": [
            {
                "run": "weed",
                "rig": {"channel_width_m": 3.0, "depth_m": 3.0},
                "reduction": {
                    "readings": [_READING],
                    "refusals": [{"start_s": 0.0, "end_s": 60.0}],
                    "duration_s": 600.0,
                },
            }
        ]
    },
    "corrected": [{"tip_speed_ratio": 2.1, "power_coefficient": 0.38, "power_uncertainty": 0.01}],
    "check": {
        "rows": [
            {
                "tip_speed_ratio": 2.1,
                "predicted_power": 0.37,
                "predicted_low": 0.3,
                "predicted_high": 0.4,
                "inside": True,
            }
        ],
        "regions": [_REGION],
    },
}
_CHAPTER = {
    "anchor": "trials",
    "title": "Trials",
    "parts": [
        {
            "heading": "Walls",
            "blocks": [
                {"kind": "text", "text": "Words.", "tone": "safety"},
                {
                    "kind": "table",
                    "caption": "Rows",
                    "columns": [{"name": "a", "align": "end"}],
                    "rows": [["1\u202fm"]],
                },
            ],
        }
    ],
}
_PASSAGE = {"strike": {"chance": [0.3]}, "death": [0.05], "death_low": [0.02], "death_high": [0.2]}
_NEIGHBOURS: dict[str, Any] = {
    "invented": False,
    "fish": [{"name": "smolt", "length_m": 0.15, "at": [{"condition": "design point", "passage": _PASSAGE}]}],
    "debris": {
        "opening": {"sphere_m": 0.08, "smallest_m": 0.06},
        "drift": [
            {
                "name": "leaves",
                "dose": None,
                "fate": {"staying": {"low": 0.0, "value": 0.1, "high": 0.3, "basis": "geometry"}},
            }
        ],
    },
    "sound": [
        {"condition": "design point", "level": {"audible_distance_m": 120.0, "uncertainty_dB": 9.0}},
        {"condition": "fastest water, on load", "level": None},
    ],
}
_BAND = "the interval reaches the predicted band in 1 of 1 compared readings, the value itself lies within it in 0"


def _screen(asked: list[dict[str, Any]], **more: Any) -> Any:
    options = SimpleNamespace(run="", channel="", start=0.0, end=None)
    return SimpleNamespace(
        options=options,
        drawings={},
        fault=None,
        table=lambda _role: "x",
        written=lambda _key: "",
        refusal=lambda _key: "",
        follow=lambda _follower: None,
        further=lambda _kind, _function, _show, **o: asked.append(o),
        **more,
    )


def _text(client: Client) -> str:
    found = [str(getattr(e, "text", "")) for e in client.elements.values()]
    return "\n".join(found)


def test_trials_with_a_store(place: Client) -> None:
    asked: list[dict[str, Any]] = []
    runs = [{"run": "weed", "channels": [{"name": "torque"}, {"name": "speed"}]}]
    data = {"trials": _TRIALS, "band": _BAND, "chapter": _CHAPTER, "store": {"runs": runs, "reason": ""}}
    trials.view(_screen(asked), data)
    said = _text(place)
    assert "5.0\u202f% of the torque lost (3.0 to 7.0\u202f%)" in said
    assert f"{_BAND.capitalize()} (filled: corrected); hollow: as in the channel" in said
    assert "Invented data" in said
    assert "Words." in said
    assert asked == [{"run": "weed", "channel": "torque", "start": 0.0, "end": None}]


def test_trials_without_a_store_say_what_to_do(place: Client) -> None:
    data = {"trials": _TRIALS, "band": _BAND, "chapter": _CHAPTER, "store": {"runs": [], "reason": ""}}
    trials.view(_screen([]), data)
    assert "holds no run yet" in _text(place)


def test_neighbours_with_their_cautions(place: Client) -> None:
    cautions = {"fish": "Ask the fishery.", "flood_and_debris": "", "sound": ""}
    neighbours.view(_screen([]), {"neighbours": _NEIGHBOURS, "cautions": cautions, "chapters": [_CHAPTER]})
    said = _text(place)
    assert "30\u202f%" in said
    assert "die: 5.0\u202f% by screening, known 2.0 to 20\u202f%" in said
    assert "Ask the fishery." in said
    assert "smolt, 0.15\u202fm: struck" in said


def test_a_trace_is_one_line_through_every_extreme(place: Client) -> None:
    from racewright.desk.parts.trial_traces import _drawn

    flags = [{"start_s": 1.0, "end_s": 2.0, "reason": "spike"}]
    found = {
        "run": "weed",
        "channel": "torque",
        "unit": "V",
        "time_s": [0.0, 1.0],
        "least": [-1.0, None],
        "greatest": [2.0, None],
        "rows": 512,
        "flags": flags,
        "flagged": 1,
    }
    plot = _drawn(found)
    assert isinstance(plot, ui.plotly)
    assert "1 flagged span in sight (spike)" in _text(place)


def test_page_one_is_previewed_with_its_warnings_and_its_table(place: Client) -> None:
    """What is unsure stands in the preview as in the dossier, not the figures alone."""
    mark = {"severity": "warning", "about": "stress", "text": "The duct is too weak."}
    table = {
        "caption": "Who checks",
        "columns": [{"name": "who", "align": "start"}],
        "rows": [["a licensed engineer"]],
    }
    answer = {"question": "What is unsure", "headlines": [["2 kW", "shaft power"]], "lines": ["40 more."]}
    front = {
        "empty": "",
        "notice": [],
        "provenance_line": "by whom",
        "answers": [answer | {"marks": [mark], "table": table}],
    }
    rest = {"title": "x", "chapters": [], "shown": None, "missing": [], "left_out": []}
    dossier.view(_screen([], ask=lambda **_options: None), front | rest)
    said = _text(place)
    assert "The duct is too weak." in said
    assert "40 more." in said
    assert "a licensed engineer" in said
