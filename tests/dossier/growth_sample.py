"""Growth of the example for tests: three sizes solved once, claims, the programme of its scheme."""

from __future__ import annotations

from racewright.growth.claims import claim_sheet
from racewright.growth.grow import grow
from racewright.growth.headline_figures import headline_claims
from racewright.growth.programme_cash import programme_cash
from racewright.growth.programme_value import programme_value
from racewright.ledger.growth_findings import GrowthFindings, ProgrammeFound
from racewright.ledger.growth_money import leap_of, programme_of, step_costs
from racewright.ledger.roles import roles_of
from racewright.scheme import load_scheme
from tests.growth.steps import MODEL, RIVER, TIDAL
from tests.ledger.common import FULL_EXAMPLE as EXAMPLE


def _programme() -> ProgrammeFound:
    scheme = load_scheme(EXAMPLE / "scheme.toml").scheme
    roles = roles_of(scheme, *next(iter(scheme.case.items())))
    table = roles.plain("growth.programme")
    programme, leap = programme_of(roles.plain("growth.size"), table), leap_of(table)
    cash = programme_cash(programme, seed=5, draws=2000)
    costs = step_costs(programme, 0.8, 0.1)
    return ProgrammeFound(programme, leap, cash, programme_value(programme, leap), 0.8, 0.1, costs)


GROWN = GrowthFindings(
    "to_the_strait",
    "",
    True,
    grow((MODEL, RIVER, TIDAL)),
    claim_sheet(headline_claims(TIDAL, "tidal unit"), steps=("model", "river unit", "tidal unit")),
    _programme(),
    (),
)
