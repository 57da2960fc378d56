"""On what terms a piece is sold directly."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from pourwright.app.pricing.quotes import exact
from pourwright.app.pricing.sums import Sums
from pourwright.costing.margins import Terms, margin_from_markup
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import rounded_money
from pourwright.jobs.prices import PriceList
from pourwright.jobs.prices_sections import Sell

NOTHING = Decimal(0)


@dataclass(frozen=True)
class Deal:
    """A cost, the margin wanted and how it is sold directly.

    Parameters
    ----------
    cost : Decimal
        Of one good piece.
    margin : Decimal
        Wanted [-].
    terms : Terms
        Sold directly.
    currency : str
        ISO 4217 code.
    tax_shown : bool
        Whether a label's price has the tax in it.
    """

    cost: Decimal
    margin: Decimal
    terms: Terms
    currency: str
    tax_shown: bool

    def round(self, money: Decimal) -> Decimal:
        """To the smallest coin."""
        return rounded_money(money, self.currency)

    def shown(self, net: Decimal) -> Decimal:
        """What a label says for a net price."""
        rounded = self.round(net)
        return rounded + self.round(rounded * self.terms.tax) if self.tax_shown else rounded


def deal_of(sums: Sums, sell: Sell) -> Deal:
    """Read the terms from the price list."""
    listed = sums.look.quotes.listed
    margin = margin_from_markup(exact(sell.markup or 0.0)) if sell.margin is None else exact(sell.margin)
    deal = Deal(
        cost=sums.cost.full,
        margin=margin,
        terms=_terms(listed),
        currency=sums.look.quotes.currency,
        tax_shown=listed.tax is None or listed.tax.kind == "VAT",
    )
    _refuse_hopeless(deal, listed)
    return deal


def _terms(listed: PriceList) -> Terms:
    tax, fees, seconds = listed.tax, listed.fees, listed.seconds
    return Terms(
        tax=NOTHING if tax is None else exact(tax.rate),
        fee=exact(fees.share),
        fixed=NOTHING if fees.fixed is None else fees.fixed.amount,
        seconds=NOTHING if seconds is None else exact(seconds.share),
        off=NOTHING if seconds is None else exact(seconds.off),
    )


def _refuse_hopeless(deal: Deal, listed: PriceList) -> None:
    """Margin and fees together must leave something of the price."""
    taken = 1 - deal.terms.kept + deal.margin
    if taken >= 1:
        raise UserError(
            f"margin and fees together take {100 * taken:.0f} % of the price: no price pays the cost",
            where=listed.where(("sell",)),
            allowed="together below 100 % of the net price",
            todo="lower the margin, or the fees under [fees]",
        )
