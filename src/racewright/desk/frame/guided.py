"""A two-minute look round, offered on the first visit: which things it points at. `static/guided.js` shows it."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import asdict, dataclass

from racewright.desk.seam import Page


@dataclass(frozen=True)
class Step:
    """One thing to look at.

    Attributes
    ----------
    page : str
        Name of its page; a step of a page that is not there is left out.
    target : str
        CSS selector of the thing; the heading of the page stands in where it is not there.
    title, text : str
        What is said of it.
    """

    page: str
    target: str
    title: str
    text: str


STEPS = (
    Step(
        "standing",
        ".figures",
        "Where the scheme stands",
        "Power, a year's energy and its cost, each with the band it may lie in. Warnings, and what the scheme has not"
        " yet, stand below.",
    ),
    Step(
        "standing",
        ".draft",
        "You work on a draft",
        "Whatever you change is a draft: undo and redo it, and save when you mean it. Until then the file stays.",
    ),
    Step(
        "machine",
        ".machine-drawing",
        "Pull the machine into shape",
        "Drag a handle, or move it with the arrow keys. Power and thrust follow at once, against the saved version.",
    ),
    Step(
        "place",
        ".chart",
        "What the water does",
        "Record, durations, depth and profile of the place. Each chart can be saved as a drawing or as numbers.",
    ),
    Step(
        "trials",
        ".body > :first-child",
        "Set tests against the prediction",
        "Drop a logger's files here. Readings are corrected for the channel's walls and laid on the predicted band.",
    ),
    Step(
        "holding",
        ".body > :first-child",
        "What holds it",
        "Lines and anchors, what they carry in every water, and what a drifting log does to them.",
    ),
    Step(
        "neighbours",
        ".figures",
        "Who else is in the water",
        "Fish that come in, debris that must pass, and how far the machine is heard, with what is not known said.",
    ),
    Step(
        "supply",
        ".body > :first-child",
        "What it is worth to those who use it",
        "The year by the hour: what the machine gives, what the diesel set still burns, and what that costs.",
    ),
    Step(
        "dossier",
        ".controls",
        "Put it on paper",
        "Choose chapters and make the dossier for client, regulator or investor, as PDF and HTML. That was all.",
    ),
)
"""In the order they are shown."""


def steps_on(pages: Iterable[Page]) -> list[dict[str, str]]:
    """The steps whose pages there are, each with the address of its page."""
    known = {page.name: page.address for page in pages}
    return [{**asdict(step), "address": known[step.page]} for step in STEPS if step.page in known]


def guided(pages: Iterable[Page]) -> str:
    """What the body of every page ends with: the steps, and the script that shows them."""
    told = json.dumps(steps_on(pages)).replace("<", "\\u003c")
    return (
        f'<script type="application/json" id="guided-steps">{told}</script>'
        '<script defer src="/look/guided.js"></script>'
    )
