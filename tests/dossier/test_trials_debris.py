"""What the dossier says of fouling and of debris let go."""

from __future__ import annotations

import dataclasses

from racewright.dossier.chapters import trials_debris
from racewright.ledger.trials_findings import RunFouling
from racewright.trials.doses import DoseCard, dose_table
from racewright.uncertainty import binomial_limits
from tests.dossier import trials_sample
from tests.dossier.trials_chapter import TRIALS, said, table


def test_fouling_tells_loss_onset_alarm_and_what_cleaning_gave() -> None:
    assert list(table("run")[0].values()) == [
        "weed", "5.8 %", "4.9 to 6.7 %", "20 min", "33 min", "5.6 %", "5.0 to 6.2 %",
    ]  # fmt: skip
    assert "Run short: fouling was not looked for, too few rows." in said()
    assert "fouling was not looked for" in said(dataclasses.replace(TRIALS, foulings=()))
    found = dataclasses.replace(trials_sample.FOULING, found=False, alarm_time=None, recovered=None)
    clean = dataclasses.replace(TRIALS, foulings=(RunFouling("weed", found, "", 40.0, 3560.0, None),))
    assert table("run", clean)[0]["alarm"] == "none"
    assert table("run", clean)[0]["given back"] == "–"


def test_limits_of_a_dose_keep_their_label() -> None:
    """One-sided above where nothing lodged, two-sided else; shares of what entered."""
    rows = {r["dose"]: r for r in table("dose")}
    assert rows["leaves"]["chance of lodging"] == binomial_limits(0, 59, sides="upper").label
    assert "one-sided upper 95 % limit" in rows["leaves"]["chance of lodging"]
    assert rows["sticks"]["chance of lodging"] == binomial_limits(2, 17).label
    assert rows["mats"]["chance of lodging"] == "none entered the duct"
    words = said()
    assert "Lodged: 1 in the vanes, 1 in the rotor; came out: 1 when the rotor was stopped, 1 by hand; held" in words
    assert "3 pieces unseen: had all of them lodged, it would be 5 of 20" in words


def test_a_dose_of_which_nothing_was_seen_is_told() -> None:
    rows = dose_table((DoseCard("nuts", "nut", 0.03, 0.03, 0.03, 1100.0, 4, 1.0),), ())
    words = str(trials_debris.write(rows))
    assert "none entered the duct" in words
    assert "4 of 4" in words
