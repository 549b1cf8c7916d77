"""Scheme tables of the lines: what they are made of, where they begin and end."""

from __future__ import annotations

from pydantic import Field

from racewright.scheme.types import Table, choice, flag, name, quantity, ratio, text, whole

LINE_KINDS = (
    "studless chain",
    "stud chain",
    "six-strand wire",
    "spiral wire",
    "sheathed spiral wire",
    "polyester",
    "nylon",
    "HMPE",
    "own",
)
"""Kinds of line with packaged figures, and 'own' for one whose figures are all given."""


class SegmentTable(Table):
    """One uniform stretch of a line."""

    order: int = whole(1, 50, "place in the line, 1 at the anchor", default=1, because="a line of one segment")
    kind: str = choice(LINE_KINDS, "what it is; 'own' wants mass, stiffness and strength")
    length: float = quantity("length", "1 mm", "10 km", "unstretched")
    diameter: float = quantity("length", "1 mm", "500 mm", "nominal: bar of chain, rope of wire and fibre")
    grade: str = choice(("R3", "R3S", "R4", "R5"), "of chain", default="R3", because="the weakest")
    spliced: bool = flag("fibre rope has spliced ends", default=True, because="every end has one")
    strength: float | None = quantity(
        "force", "1 N", "100 MN", "breaking strength as used, wet and spliced, instead of the table's", default=None
    )
    mass: float | None = quantity(
        "line mass", "0.0001 kg/m", "2000 kg/m", "in air, instead of the table's", default=None
    )
    stiffness: float | None = quantity(
        "force", "100 N", "1000000 MN", "EA: tension over relative stretch, instead of the table's", default=None
    )
    drag_coefficient: float | None = ratio(0.0, 20.0, "square-on, instead of the table's", default=None)
    source: str = text("certificate, maker, test")


class LegTable(SegmentTable):
    """One leg of a bridle: one segment from the line's end to a fairlead."""

    fairlead: str = name("name of a [holding.NAME.fairlead.*] table")


class LineTable(Table):
    """One line from an anchor to the machine."""

    anchor: str = name("name of a [holding.NAME.anchor.*] table")
    fairlead: str | None = name("name of a [holding.NAME.fairlead.*] table; or give a bridle", default=None)
    purpose: str = choice(
        ("tether", "power cable"), "a cable is counted as a line but never as the one that is lost", default="tether",
        because="most lines",
    )  # fmt: skip
    drag_factor: float = ratio(1.0, 6.0, "on the drag, for a line that strums", default=1.0, because="not strumming")
    segment: dict[str, SegmentTable] = Field(default_factory=dict, description="its segments by name, in order")
    bridle: dict[str, LegTable] = Field(default_factory=dict, description="legs from the line's end to fairleads")
