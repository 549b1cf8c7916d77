"""Blocks on the rating curve: fitted to gaugings, with its figure and gaugings."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.chapters.words import facts, remark_table
from racewright.dossier.document import Block, Heading, Picture, Text
from racewright.place.rating_band import RatingBand
from racewright.place.rating_fit import RatingFit

_BEYOND = "Beyond the gaugings the band holds only if the same power law goes on there."


def rating_blocks(fit: RatingFit | None, band: RatingBand | None) -> list[Block]:
    """The fitted rating; nothing where the rating is stated."""
    if fit is None or band is None:
        return []
    found = fit.rating
    power = fmt.number(found.exponent, 3)
    zero = fmt.number(abs(found.zero_level), 2)
    sign = "less" if found.zero_level >= 0.0 else "plus"
    said = (
        f"Discharge in m³/s is {fmt.number(found.coefficient, fmt.decimals_for(found.coefficient, 4))} times (level "
        f"in m {sign} {zero}) to the power {power}, fitted to {fit.level.size} gaugings by "
        f"least squares on the logarithm of discharge."
    )
    caption = "Gaugings and the rating fitted to them with the 95 % band of the mean relation"
    if band.extrapolated.any():
        said, caption = f"{said} {_BEYOND}", f"{caption}; dashed and hatched where nothing was gauged"
    blocks: list[Block] = [
        Heading("Rating curve"),
        Text(said),
        Picture(
            "rating",
            f"{caption}.",
            f"Level over discharge: {fit.level.size} gaugings about the rating curve.",
        ),
        _facts(fit),
    ]
    if fit.remarks:
        blocks.append(remark_table(fit.remarks, "Remarks on the rating"))
    return blocks


def _facts(fit: RatingFit) -> Block:
    zero = (
        "stated"
        if fit.zero_level_given
        else f"fitted, standard error {fmt.fixed(fit.zero_level_error, fmt.LENGTH, 2)}"
    )
    levels = f"{fmt.number(float(fit.level.min()), 2)} to {fmt.fixed(float(fit.level.max()), fmt.LENGTH, 2)}"
    low, high = float(fit.discharge.min()), float(fit.discharge.max())
    flows = f"{fmt.number(low, fmt.decimals_for(low, 3))} to {fmt.quantity(high, fmt.DISCHARGE)}"
    return facts(
        "The rating in figures",
        [
            ("standard error", fmt.quantity(fit.standard_error, fmt.SHARE, 2), "of one gauging about the rating"),
            ("zero level", fmt.fixed(fit.rating.zero_level, fmt.LENGTH, 2), f"level of zero flow, {zero}"),
            (
                "exponent",
                fmt.number(fit.rating.exponent, 3),
                f"standard error {fmt.number(fit.exponent_error, fmt.decimals_for(fit.exponent_error, 2))}",
            ),
            ("gauged levels", levels, f"discharge {flows}"),
        ],
    )
