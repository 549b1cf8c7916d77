"""What of the neighbours is shown: fish with an answer, differences in order, names of operating points."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from racewright.dossier import format as fmt
from racewright.dossier.text import signs
from racewright.ledger.neighbours_findings import FishAt, FishBeside, FishFound
from racewright.safety import SafetyBasis

FISH_ABOUT = ("fish", "strike", "heading", "injury", "pressure", "shear", "avoidance", "fish length",
              "nadir pressure", "streamlines")  # fmt: skip
"""Subjects of remarks on fish."""
SOUND_ABOUT = ("source", "sound", "ambient", "tones", "cavitation")
"""Subjects of remarks on sound."""


@dataclass(frozen=True)
class Against:
    """One kind of fish against one bare rotor: machine less bare over bare; below 0 speaks for the machine [-].

    Attributes
    ----------
    fish, against : str
        Name in the scheme (untrusted) and name of the bare rotor.
    chance, fastest, struck_flow, deadly_flow, struck_per_energy, deaths_per_energy : float
        As in `passage.beside.Difference` [-].
    """

    fish: str
    against: str
    chance: float
    fastest: float
    struck_flow: float
    deadly_flow: float
    struck_per_energy: float
    deaths_per_energy: float


def against(beside: Sequence[FishBeside]) -> tuple[Against, ...]:
    """Every fish against every bare rotor, in order."""
    return tuple(
        Against(
            one.name,
            d.against,
            float(d.chance[0]),
            float(d.fastest),
            float(d.struck_flow[0]),
            float(d.deadly_flow[0]),
            float(d.struck_per_energy[0]),
            float(d.deaths_per_energy[0]),
        )
        for one in beside
        for d in one.beside.differences
    )


def passages(fish: Sequence[FishFound]) -> tuple[tuple[FishFound, FishAt], ...]:
    """Each fish at each operating point that has an answer."""
    return tuple((one, at) for one in fish for at in one.at if at.passage is not None)


def point_name(condition: str, stream_speed: float) -> str:
    """'design point, 2.40 m/s'."""
    return f"{condition}, {fmt.fixed(stream_speed, fmt.SPEED, 2)}"


def source_line(basis: SafetyBasis) -> str:
    """Basis, edition and status in a sentence each."""
    said = signs(basis.basis).rstrip(".")
    edition = "" if basis.edition == "-" else f" Edition: {signs(basis.edition)}."
    return f"{said[0].upper()}{said[1:]}.{edition} Status: {signs(basis.status)}."
