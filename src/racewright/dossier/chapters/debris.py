"""Chapter on debris that drifts through: openings, fates, a screen, a trade."""

from __future__ import annotations

from racewright.cautions import caution
from racewright.dossier import format as fmt
from racewright.dossier.document import Block, Chapter, Column, Heading, Picture, Table, Text
from racewright.dossier.text import clean, signs
from racewright.ledger.neighbours_findings import DebrisFound, DriftFound, NeighboursFindings, ScreenFound, TradeFound
from racewright.passage.opening import Opening

_DAY = (fmt.Scale("h", 3600.0), fmt.Scale("d", 86400.0))


def write(found: NeighboursFindings) -> Chapter:
    """What fits, what stays, what bars and other designs would change."""
    blocks: list[Block] = [Text(_lead(found.debris), "lead"), Text(caution("flood_and_debris").sentence, "safety")]
    blocks += _opening(found.debris.opening)
    blocks += _drift(found.debris.drift)
    if found.screen is not None:
        blocks += _screen(found.screen)
    if found.trade is not None:
        blocks += _trade(found.trade)
    return Chapter("debris", "Debris", tuple(blocks))


def _lead(found: DebrisFound) -> str:
    free = found.opening
    said = (
        f"A ball of {fmt.quantity(free.sphere, fmt.SMALL_LENGTH)} passes both rows somewhere between hub and tip; "
        f"the narrowest opening is {fmt.quantity(free.smallest, fmt.SMALL_LENGTH)}."
    )
    worst = max(found.drift, key=lambda one: one.fate.staying.value, default=None)
    if worst is None:
        return said
    how = "counted" if worst.dose else "by geometry"
    stays = fmt.fixed(worst.fate.staying.value, fmt.SHARE, 0)
    return f"{said} Of what drifts, {clean(worst.name)} stays most: {stays} of the pieces that come in, {how}."


def _opening(free: Opening) -> tuple[Block, ...]:
    columns = (
        Column("row", share=1.2),
        Column("opening at the hub", "end", 1.4),
        Column("at the tip", "end", 1.2),
        Column("narrowest", "end", 1.2),
        Column("largest ball", "end", 1.2),
        Column("hub to wall", "end", 1.2),
    )
    rows = tuple(
        (
            row.name,
            *(
                fmt.quantity(float(v), fmt.SMALL_LENGTH)
                for v in (row.opening[0], row.opening[-1], row.opening.min(), row.sphere, row.height)
            ),
        )
        for row in (free.vanes, free.blades)
    )
    thick = fmt.quantity(free.stick_diameter, fmt.SMALL_LENGTH, 2)
    caption = (
        f"Free between neighbours on the developed cylinder. A straight stick {thick} thick passes both rows at "
        f"every angle and radius up to {fmt.quantity(free.stick_anywhere, fmt.SMALL_LENGTH)}; the rows stand "
        f"{fmt.quantity(free.axial_gap, fmt.SMALL_LENGTH)} apart, and a stick that bridges them may jam. Rows as "
        "designed and turned: growth, burrs and fillets narrow them."
    )
    alt = "Opening against radius for vanes and blades, and the longest stick that passes against its angle."
    picture = Picture("debris_opening", "Free opening from hub to tip, and the longest stick by its angle.", alt)
    return Heading("What fits through"), picture, Table(caption, columns, rows)


def _drift(drift: tuple[DriftFound, ...]) -> tuple[Block, ...]:
    if not drift:
        return (Text("The scheme names no debris: add [neighbours.NAME.debris.NAME] tables."),)
    columns = (
        Column("debris", share=1.3),
        Column("smallest piece", share=1.1),
        Column("largest piece", share=1.1),
        Column("touched", "end", 1.3),
        Column("stays", "end", 0.8),
        Column("of it known", "end", 1.3),
        Column("from", share=2.6),
    )
    caption = (
        "Fate of pieces that come in at the design point. Touched: by an edge of either row, smallest and "
        "largest piece. "
        "A flexible piece that is caught wraps when its edge holds it; a rigid one lodges where it does not fit."
    )
    return Heading("What stays"), Table(caption, columns, tuple(_fate(one) for one in drift))


def _fate(one: DriftFound) -> tuple[str, ...]:
    fate, band = one.fate, one.fate.staying
    small, large = (fmt.number(100.0 * c, 0) for c in fate.blow_chance)
    measured = "" if fate.measured is None else f"{signs(fate.measured.label)}; "
    return (
        f"{clean(one.name)} ({fate.title.lower()})",
        fate.outcome[0],
        fate.outcome[1],
        f"{small} to {large}{fmt.THIN}%",
        fmt.fixed(band.value, fmt.SHARE, 0),
        f"{fmt.number(100.0 * band.low, 0)} to {fmt.fixed(band.high, fmt.SHARE, 0)}",
        f"{measured}dose {clean(one.dose)} of the trials" if one.dose else band.basis,
    )


def _screen(found: ScreenFound) -> tuple[Block, ...]:
    option = found.option
    columns = (
        Column("state", share=2.0),
        Column("shaft power", "end", 1.2),
        Column("lost", "end", 0.9),
        Column("open share", "end", 1.0),
        Column("head lost", "end", 1.1),
        Column("approach", "end", 1.1),
    )
    closed = fmt.fixed(option.fouled_loss.closed_share, fmt.SHARE, 0)
    rows = [("without a screen", fmt.quantity(option.without.shaft_power, fmt.POWER), "-", "-", "-", "-")]
    for name, point, loss, share in (
        ("clean bars", option.clean, option.clean_loss, option.clean_power_share),
        (f"{closed} of the gaps closed", option.fouled, option.fouled_loss, option.fouled_power_share),
    ):
        rows.append(
            (
                name,
                fmt.quantity(point.shaft_power, fmt.POWER),
                fmt.fixed(share, fmt.SHARE, 1),
                fmt.fixed(loss.open_share, fmt.SHARE, 0),
                fmt.quantity(loss.head_loss, fmt.HEAD),
                fmt.quantity(loss.approach_speed, fmt.SPEED, 2),
            )
        )
    held = ", ".join(clean(n) for n in found.held_back)
    words = f"The gaps hold back {held}." if held else "The gaps hold back none of the fish given."
    if option.fill_time is not None:
        words += f" Nobody raking, the second state is reached in {fmt.quantity(option.fill_time, _DAY, 2)}."
    remarks = " ".join(signs(r.text) for r in option.clean_loss.remarks)
    caption = "The machine behind bars, at the design point's stream speed and rotor speed."
    safety = option.clean_loss.safety
    source = Text(f"Loss of the bars: {signs(safety.basis)} ({signs(safety.status)}).")
    return (
        Heading("A screen of bars"),
        Table(caption, columns, tuple(rows)),
        Text(f"{words} {remarks}", "safety"),
        source,
    )


def _trade(found: TradeFound) -> tuple[Block, ...]:
    columns = (
        Column("variant", share=2.2),
        Column("shaft power", "end", 1.1),
        Column("torque", "end", 1.1),
        Column("struck", "end", 0.8),
        Column("dies, screening", "end", 1.0),
        Column("fastest edge, m/s", "end", 1.1),
        Column("narrowest, mm", "end", 1.0),
        Column("debris that stays", share=2.4),
    )
    rows = []
    for row in found.rows:
        if row.reason:
            rows.append((row.label, *(["-"] * 6), f"cannot be: {signs(row.reason)}"))
            continue
        stays = ", ".join(f"{f.title.lower()} {fmt.fixed(f.staying.value, fmt.SHARE, 0)}" for f in row.fates)
        rows.append(
            (
                row.label,
                fmt.quantity(row.shaft_power, fmt.POWER),
                fmt.quantity(row.torque, fmt.TORQUE),
                fmt.fixed(row.strike_chance, fmt.SHARE, 0),
                fmt.fixed(row.death, fmt.SHARE, 1),
                fmt.number(row.fastest, 1),
                fmt.number(1e3 * row.smallest_opening, 0),
                stays or "none asked",
            )
        )
    caption = (
        "One thing moved at a time, both rows designed anew and computed at their own design point; strikes are "
        "of "
        f"{clean(found.fish)} of {fmt.quantity(found.length, fmt.LENGTH, 2)}. Other counts keep count \u00d7 "
        "chord; sweep does not change the computed power."
    )
    return Heading("What another design would change"), Table(caption, columns, tuple(rows))
