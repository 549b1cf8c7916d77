"""Scheme tables of the money of a supply option over its life."""

from __future__ import annotations

from pydantic import Field

from racewright.quantity.grammar import Quantity
from racewright.scheme.types import Table, choice, money, name, quantity, ratio, text, whole

DOUBTED = (
    "capital", "yearly_cost", "fuel_saved", "fuel_price", "other_saved", "used_energy", "rate", "cost_growth",
    "fuel_growth",
)  # fmt: skip
"""Numbers of a plan that may be in doubt."""


class LoanTable(Table):
    """Part of the capital borrowed at the start, paid back in equal yearly payments."""

    share: float = ratio(0.0, 1.0, "of the capital")
    rate: float = ratio(0.0, 1.0, "yearly")
    kind: str = choice(
        ("real", "nominal"), "inflation taken out, or as on the bill", default="nominal", because="as banks say it"
    )
    years: int = whole(1, 60, "until it is paid back")


class ReplacementTable(Table):
    """Something replaced within the life."""

    after: int = whole(1, 60, "years from the start")
    cost: Quantity = money("money", "then, in the prices of the plan")
    source: str = text("what it is")


class DoubtOfMoneyTable(Table):
    """Range of one number of the plan, as ratios of it; for rates and growths as differences."""

    low: float = ratio(-1.0, 100.0, "low end")
    high: float = ratio(-1.0, 100.0, "high end")
    shape: str = choice(("triangle", "even", "ratio"), "of the chance", default="triangle", because="common practice")
    source: str = text("where the range comes from")


class TogetherTable(Table):
    """Two numbers that err together."""

    first: str = choice(DOUBTED, "one")
    second: str = choice(DOUBTED, "the other")
    correlation: float = ratio(-1.0, 1.0, "between them")


class MoneyTable(Table):
    """Prices, growth and finance."""

    prices: str = choice(
        ("real", "nominal"), "of one year's prices, or as on the bill", default="real", because="the interest is real"
    )
    price_year: int = whole(1900, 2200, "whose prices real money is in")
    inflation: float | None = ratio(-0.2, 2.0, "yearly; wanted where real and nominal meet", default=None)
    cost_growth: float = ratio(-0.4, 1.0, "of the yearly cost", default=0.0, because="none")
    fuel_growth: float = ratio(-0.4, 1.0, "of the fuel's price", default=0.0, because="none")
    residual: Quantity | None = money("money", "worth at the end less taking away", default=None)
    loan: LoanTable | None = Field(None, description="money borrowed")
    replacement: dict[str, ReplacementTable] = Field(default_factory=dict, description="replaced within the life")
    doubt: dict[str, DoubtOfMoneyTable] = Field(
        default_factory=dict, description="ranges by the name of the plan's number"
    )
    together: dict[str, TogetherTable] = Field(default_factory=dict, description="numbers that err together")


class ProgrammeStepTable(Table):
    """What one step of growth costs and how likely it passes."""

    cost: Quantity = money("money", "likeliest, of all that the step spends")
    time: float = quantity("time", "1 d", "50 yr", "likeliest")
    chance: float = ratio(0.0, 1.0, "that it passes its gate")
    cost_low: float = ratio(
        0.01, 1.0, "low end over the likeliest", default=0.8, because="class 4 estimate, AACE 18R-97"
    )
    cost_high: float = ratio(
        1.0, 20.0, "high end over the likeliest", default=1.5, because="class 4 estimate, AACE 18R-97"
    )
    time_low: float = ratio(0.01, 1.0, "low end over the likeliest", default=0.8, because="own choice")
    time_high: float = ratio(1.0, 20.0, "high end over the likeliest", default=2.0, because="own choice")
    income: Quantity | None = money("money", "when the gate is passed", default=None)
    rest: Quantity | None = money("money", "left over when it is not passed", default=None)
    units: int = whole(0, 1000, "built in it", default=1, because="one")


class LeapTable(ProgrammeStepTable):
    """One big leap in place of the steps."""

    rated_power: float = quantity("power", "10 W", "100 MW", "of the unit that it builds")


class ProgrammeTable(Table):
    """What stands at the end, and how money is counted until then."""

    prize: Quantity = money("money", "worth of the business when the last gate is passed")
    rate: float = ratio(0.0, 1.0, "yearly, of the kind of the money")
    price_year: int = whole(1900, 2200, "whose prices the money is in")
    size_exponent: float = ratio(
        0.1, 1.5, "cost of a unit goes as rated power to this", default=0.8, because="from memory"
    )
    learning_rate: float = ratio(0.0, 0.5, "cost falls by this at each doubling", default=0.1, because="from memory")
    leap: LeapTable | None = Field(None, description="the one big leap beside the steps")
    source: str = text("where the figures come from")


class ClaimTable(Table):
    """What stands behind one headline figure."""

    figure: str = name("what is claimed, such as 'power coefficient at design'")
    basis: str = choice(("measured by us", "published", "computed", "memory"), "what it rests on")
    value: float | None = ratio(-1e12, 1e12, "the figure, where the product does not compute it", default=None)
    low: float | None = ratio(-1e12, 1e12, "low end", default=None)
    high: float | None = ratio(-1e12, 1e12, "high end", default=None)
    unit: str = name("unit of it", default="1", because="a ratio")
    size: str | None = name(
        "name of a size of the growth that it is claimed of; the machine itself if left out", default=None
    )
    tested_on: str | None = name("name of the size that the last test was of", default=None)
    why_no_band: str = text("why it has no low and high end")
    last_test: str = text("which test last, with its date")
    next_test: str = text("which test comes next, and when")
    source: str = text("where it stands")
