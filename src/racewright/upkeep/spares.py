"""Which spares to hold on site: what they cost against the energy lost without them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from racewright.errors import InputError
from racewright.place.guard import within
from racewright.upkeep.parts import YEAR, MachinePart
from racewright.upkeep.parts_availability import PartsAvailability, parts_availability
from racewright.upkeep.standstill import PartNumbers, standstills

MOST_HELD = 20


@dataclass(frozen=True, slots=True)
class SpareRow:
    """One kind of part.

    Attributes
    ----------
    name : str
    held : int
        Spares to hold on site.
    tied_up : float
        Their price [currency].
    holding : float
        Cost of holding them [currency/yr].
    energy_kept : float
        More energy with them than without any of this part, all others as chosen [J/yr].
    money_kept : float
        That energy's worth less the holding [currency/yr].
    """

    name: str
    held: int
    tied_up: float
    holding: float
    energy_kept: float
    money_kept: float


@dataclass(frozen=True, slots=True)
class Spares:
    """Spares chosen.

    Attributes
    ----------
    rows : tuple of SpareRow
        As the parts were given.
    without, with_spares : PartsAvailability
        With nothing on site, and with what was chosen.
    tied_up, holding : float
        All spares together [currency], [currency/yr].
    money_kept : float
        Against holding none [currency/yr].
    """

    rows: tuple[SpareRow, ...]
    without: PartsAvailability
    with_spares: PartsAvailability
    tied_up: float
    holding: float
    money_kept: float


def choose_spares(
    parts: tuple[MachinePart, ...], mean_power: float, energy_worth: float, holding_rate: float
) -> Spares:
    """Add spares one by one, always the one that keeps most money, until none keeps any.

    Each further spare of a kind keeps less than the one before, so this finds the best set but for ties through the
    common factor of availability, which are small.

    Parameters
    ----------
    parts : tuple of MachinePart
        What they hold now does not matter; a part without price is held free of cost.
    mean_power : float
        That the machine gives while it is able to run, >= 0 [W].
    energy_worth : float
        What lost energy costs: fuel burned instead, or what is not sold, >= 0, in the currency and kind of prices of
        the parts' prices [currency/J].
    holding_rate : float
        Interest, store, ageing, 0 to 1 [1/yr].

    Raises
    ------
    InputError
        A part named twice, a number out of range.
    """
    worth = within("the mean power", mean_power, 0.0, 1e12, "W") * YEAR
    worth *= within("the worth of energy", energy_worth, 0.0, 1e6, "currency/J")
    within("the holding rate", holding_rate, 0.0, 1.0, "1/yr")
    names = [part.name for part in parts]
    if len(set(names)) != len(names):
        raise InputError(f"a part is named twice in {', '.join(names)}")
    bare = tuple(replace(part, held=0) for part in parts)
    now = list(bare)
    while True:
        base = _money(now, worth, holding_rate)
        gains = [
            _money([*now[:i], replace(part, held=part.held + 1), *now[i + 1 :]], worth, holding_rate) - base
            if part.held < MOST_HELD
            else 0.0
            for i, part in enumerate(now)
        ]
        best = max(range(len(now)), key=lambda i: gains[i], default=None)
        if best is None or gains[best] <= 1e-12 * worth:
            break
        now[best] = replace(now[best], held=now[best].held + 1)
    chosen = tuple(now)
    rows = tuple(_row(chosen, i, mean_power * YEAR, worth, holding_rate) for i in range(len(chosen)))
    return Spares(
        rows,
        parts_availability(bare),
        parts_availability(chosen),
        math.fsum(row.tied_up for row in rows),
        math.fsum(row.holding for row in rows),
        _money(list(chosen), worth, holding_rate) - _money(list(bare), worth, holding_rate),
    )


def _share(parts: list[MachinePart]) -> float:
    found = standstills([PartNumbers(p, p.failure_rate.value, p.mend_time.value, p.wait.value) for p in parts])
    return 1.0 / (1.0 + math.fsum(one.whole for one in found))


def _money(parts: list[MachinePart], worth: float, holding_rate: float) -> float:
    """Worth of the energy made less holding [currency/yr]."""
    return worth * _share(parts) - holding_rate * math.fsum(part.held * part.price for part in parts)


def _row(parts: tuple[MachinePart, ...], i: int, energy: float, worth: float, holding_rate: float) -> SpareRow:
    part = parts[i]
    none = [*parts[:i], replace(part, held=0), *parts[i + 1 :]]
    kept = _share(list(parts)) - _share(none)
    tied = part.held * part.price
    return SpareRow(
        part.name, part.held, tied, holding_rate * tied, energy * kept, worth * kept - holding_rate * tied
    )
