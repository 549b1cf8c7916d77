"""What makes the band on power wide, cause by cause."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.document import Block, Column, Picture, Table
from racewright.dossier.text import signs
from racewright.stage.bands import PowerBands


def write(bands: PowerBands) -> tuple[Block, ...]:
    """Picture and table; empty where the machine makes no power."""
    if bands.value <= 0.0:
        return ()
    columns = (Column("cause", share=2.0), Column("power", "end", 1.6), Column("basis", share=4.0))
    rows = [(c.cause, _ends(c.low, c.high), signs(c.basis)) for c in bands.causes]
    rows.append(("all together", _ends(bands.combined.low, bands.combined.high), signs(bands.combined.basis)))
    return (
        Picture(
            "causes",
            "Each cause moved to the ends of its own range and solved again; all together by the root of squares, "
            "never narrower than the prior band.",
            "; ".join(f"{name}: {power}" for name, power, _basis in rows) + ".",
        ),
        Table("The band on shaft power at the design point by cause.", columns, tuple(rows)),
    )


def _ends(low: float, high: float) -> str:
    scale = fmt.pick(fmt.POWER, max(abs(low), abs(high)))
    digits = fmt.decimals_for(max(abs(low), abs(high)) / scale.factor, 3)
    text = f"{fmt.number(low / scale.factor, digits)} to {fmt.number(high / scale.factor, digits)}"
    return fmt.join(text, scale)
