"""Cautions on a page: each sentence in full once, with what else it holds for; none is lost when its block goes."""

from __future__ import annotations

from nicegui import Client, ui
from nicegui.page import page as kit_page

from racewright.desk import look
from racewright.desk.look.cautioned import sentences_of
from racewright.desk.look.remarks import together


def _seen(client: Client) -> list[str]:
    """Texts that can be seen, in their order on the page."""
    found = []
    for element in client.layout.descendants():
        up = list(element.ancestors(include_self=True))
        if getattr(element, "text", "") and all(e.visible for e in up):
            found.append(str(element.text).strip())  # type: ignore[attr-defined]
    return [text for text in found if text]


def test_a_sentence_stands_once_and_says_for_what_else_it_holds(place: Client) -> None:
    with look.section("Lines"):
        look.cautions(["Slow.", "Ask a licensed person."], ["Basis: a."])
    with look.section("Anchors"):
        look.cautions(["Ask a licensed person.", "Ground varies."], ["Basis: b."])
    with look.section("Year"):
        look.cautions(["Ask a licensed person.", "Slow."], ["Basis: a."])
    assert _seen(place) == [
        "Lines",
        "Slow.",
        "(holds also for: Year)",
        "Ask a licensed person.",
        "(holds also for: Anchors; Year)",
        "Basis: a.",
        "Anchors",
        "Ground varies.",
        "Basis: b.",
        "Further cautions and basis: as told under \u2018Lines\u2019.",
        "Year",
        "Cautions and basis: as told under \u2018Lines\u2019.",
    ]


def test_neighbouring_sentences_say_together_for_what_else_they_hold(place: Client) -> None:
    with look.section("Lines"):
        look.cautions(["Own.", "Slow.", "Ask."])
    with look.section("Year"):
        look.cautions(["Slow.", "Ask."])
    assert _seen(place)[:5] == ["Lines", "Own.", "Slow.", "Ask.", "(these 2 sentences hold also for: Year)"]


def test_when_a_block_goes_the_next_one_says_it_in_full(place: Client) -> None:
    """A part that is built anew without its cautions must not take them from the page."""
    above = ui.element("div")
    with above, look.section("As it hangs now"):
        look.cautions(["Slow."])
    with look.section("Lines"):
        look.cautions(["Slow."])
    assert _seen(place).count("Slow.") == 1
    above.clear()
    assert _seen(place) == ["Lines", "Slow."]


def test_the_first_on_the_page_says_it_whichever_was_built_first(place: Client) -> None:
    """An answer that comes later may stand above."""
    above = ui.element("div")
    with look.section("Below"):
        look.cautions(["Slow."])
    with above, look.section("Above"):
        look.cautions(["Slow."])
    assert _seen(place)[:3] == ["Above", "Slow.", "(holds also for: Below)"]
    assert _seen(place).count("Slow.") == 1


def test_two_tabs_do_not_share_their_cautions() -> None:
    tabs = [Client(kit_page("/"), request=None) for _n in range(2)]
    for tab in tabs:
        with tab:
            look.cautions(["Slow."])
    assert [_seen(tab) for tab in tabs] == [["Slow."], ["Slow."]]


def test_sentences_of_a_text_are_the_text() -> None:
    text = "Slow tension, not a blow. Ask first: who decides? Nobody here."
    assert " ".join(sentences_of(text)) == text
    assert sentences_of("") == []


def test_equal_remarks_are_one_with_all_that_they_are_about() -> None:
    one = {"severity": "caution", "text": "too near", "about": "bow"}
    found = together([one, {**one, "about": "stern"}, {**one, "severity": "note"}, one])
    assert [(r["severity"], r["about"]) for r in found] == [("caution", "bow; stern (3 times)"), ("note", "bow")]
