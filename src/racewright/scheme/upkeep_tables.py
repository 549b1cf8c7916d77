"""Scheme tables of upkeep: parts that fail, pieces that are lifted, recovery from the water."""

from __future__ import annotations

from racewright.quantity.grammar import Quantity
from racewright.scheme.types import Table, choice, money, quantity, ratio, text, whole


class SparePartTable(Table):
    """A kind of part of one machine; the machine stands while one is out."""

    between_failures: float = quantity("time", "1 h", "1000 yr", "mean running time of one between failures")
    shortest: float | None = quantity("time", "1 h", "1000 yr", "the least that is thought likely", default=None)
    longest: float | None = quantity("time", "1 h", "1000 yr", "the most that is thought likely", default=None)
    mend: float = quantity("time", "0 s", "2 yr", "from part at hand to running again, access and people included")
    wait: float = quantity("time", "0 s", "5 yr", "from ordering to part at hand when it is shipped or flown in")
    count: int = whole(1, 1000, "alike in the machine", default=1, because="the least")
    held: int = whole(0, 50, "spares on site", default=0, because="none")
    price: Quantity | None = money("money", "of one", default=None)
    life: float | None = quantity(
        "time", "1 h", "100 yr", "replaced after so much running, failed or not", default=None
    )
    planned: float = quantity(
        "time", "0 s", "1 yr", "standstill for such a replacement", default="0 s", because="done in passing"
    )
    source: str = text("where rate and waits come from")


class PieceTable(Table):
    """A piece that is lifted and carried in one go."""

    dry_mass: float = quantity("mass", "1 g", "10000 t", "clean and dry, in air")
    length: float = quantity("length", "1 mm", "1000 m", "outside")
    width: float = quantity("length", "1 mm", "1000 m", "outside")
    height: float = quantity("length", "1 mm", "1000 m", "outside")
    hollow_volume: float = quantity("volume", "0 L", "100000 m3", "that floods", default="0 L", because="no hollows")
    solid_volume: float = quantity(
        "volume", "0 L", "100000 m3", "of material and closed spaces", default="0 L", because="not buoyed up"
    )
    source: str = text("drawing or scales")


class CarrierTable(Table):
    """A means of transport to the place, or a lifting gear there."""

    most_mass: float = quantity("mass", "1 kg", "10000 t", "of one piece")
    length: float | None = quantity(
        "length", "0.05 m", "1000 m", "clear measure; with width and height", default=None
    )
    width: float | None = quantity("length", "0.05 m", "1000 m", "clear measure", default=None)
    height: float | None = quantity("length", "0.05 m", "1000 m", "clear measure", default=None)
    carries: str = choice(
        ("dry", "drained", "wet", "mud_filled"), "state of the piece on it", default="drained", because="usual"
    )
    source: str = text("who says so")


class RecoveryTable(Table):
    """How the machine is drawn out of the water against the current."""

    hauling_speed: float = quantity(
        "speed", "0 m/s", "3 m/s", "over the ground", default="0.1 m/s", because="a winch"
    )
    debris_drag_area: float = quantity(
        "area", "0 m2", "1000 m2", "drag coefficient x area of what hangs on it", default="0 m2", because="clean"
    )
    weight_in_water: float = quantity(
        "force", "0 N", "100 MN", "that rests on the slope", default="0 N", because="it floats"
    )
    slope: float = quantity("angle", "0 deg", "60 deg", "of a slipway", default="0 deg", because="afloat")
    friction: float = ratio(0.0, 2.0, "on that slope", default=0.0, because="afloat")
    winch: float | None = quantity("force", "1 N", "100 MN", "greatest steady pull of the winch", default=None)
    source: str = text("where the figures come from")
