"""From a cost to a price: margin and mark-up, fees, tax, commission, seconds."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from pourwright.foundation.checks import Range, checked
from pourwright.foundation.errors import UserError

BELOW_ONE = Range(0, 1, open_high=True)
NOTHING, ONE = Decimal(0), Decimal(1)


@checked(markup=Range(0))
def margin_from_markup(markup: Decimal) -> Decimal:
    """Share of the price that is left, from what is put on top of the cost.

    Parameters
    ----------
    markup : Decimal
        Price over cost, less 1 [-].

    Returns
    -------
    Decimal
        Profit over price [-].

    Examples
    --------
    >>> margin_from_markup(Decimal(1))
    Decimal('0.5')
    """
    return Decimal(markup) / (ONE + Decimal(markup))


@checked(margin=BELOW_ONE)
def markup_from_margin(margin: Decimal) -> Decimal:
    """What is put on top of the cost, from the share of the price that is left.

    Parameters
    ----------
    margin : Decimal
        Profit over price [-].

    Returns
    -------
    Decimal
        Price over cost, less 1 [-].

    Examples
    --------
    >>> markup_from_margin(Decimal("0.5"))
    Decimal('1')
    """
    return Decimal(margin) / (ONE - Decimal(margin))


@dataclass(frozen=True, slots=True)
class Terms:
    """On what terms a piece is sold.

    Parameters
    ----------
    tax : Decimal
        VAT or sales tax, on top of the net price [-].
    fee : Decimal
        Share of what the buyer pays, tax in it, that a market place or a card takes [-].
    fixed : Decimal
        Money that it takes for each sale.
    commission : Decimal
        Share of the net price that a gallery keeps [-].
    seconds : Decimal
        Share of the pieces that are sold as seconds [-].
    off : Decimal
        What is taken off their price [-].
    """

    tax: Decimal = NOTHING
    fee: Decimal = NOTHING
    fixed: Decimal = NOTHING
    commission: Decimal = NOTHING
    seconds: Decimal = NOTHING
    off: Decimal = NOTHING

    @property
    def fetched(self) -> Decimal:
        """Mean net price of a piece over that of a first."""
        return ONE - self.seconds * self.off

    @property
    def kept(self) -> Decimal:
        """Share of the net price that reaches the maker, before fixed fees."""
        return ONE - self.commission - self.fee * (ONE + self.tax)

    def got(self, net: Decimal) -> Decimal:
        """What reaches the maker of a net price, on average over firsts and seconds."""
        return net * self.fetched * self.kept - self.fixed

    def gross(self, net: Decimal) -> Decimal:
        """What the buyer pays."""
        return net * (ONE + self.tax)

    def net_of(self, gross: Decimal) -> Decimal:
        """The net price of what the buyer pays."""
        return gross / (ONE + self.tax)


def price_for(cost: Decimal, margin: Decimal, terms: Terms) -> Decimal:
    """Find the net price that leaves a margin.

    Parameters
    ----------
    cost : Decimal
        Of one good piece.
    margin : Decimal
        Profit wanted, as a share of what the piece fetches net, the gallery's part taken off [-].
    terms : Terms
        How it is sold.

    Returns
    -------
    Decimal
        Of a first, without tax.

    Raises
    ------
    UserError
        Where fees and margin leave nothing for the cost, at any price.

    Notes
    -----
    Of what a piece fetches, P, the maker has P (1 - commission) - fees; the margin is a share of
    P (1 - commission).

    Examples
    --------
    >>> float(price_for(Decimal(120), Decimal("0.4"), Terms()))
    200.0
    """
    left = terms.kept - margin * (ONE - terms.commission)
    if left <= 0 or terms.fetched <= 0:
        raise UserError(
            f"margin, commission and fees take {100 * (ONE - left):.0f} %: no price pays the cost",
            allowed="together below 100 %",
            todo="lower the margin under [sell], or the fees",
        )
    return (cost + terms.fixed) / left / terms.fetched


def margin_at(net: Decimal, cost: Decimal, terms: Terms) -> Decimal:
    """Tell what share of what a piece fetches is left at a net price.

    Parameters
    ----------
    net : Decimal
        Price of a first, without tax; above 0.
    cost : Decimal
        Of one good piece.
    terms : Terms
        How it is sold.

    Returns
    -------
    Decimal
        Below 0 for a loss [-].
    """
    return (terms.got(net) - cost) / (net * terms.fetched * (ONE - terms.commission))


def price_points(price: Decimal, step: Decimal, less: Decimal = NOTHING) -> tuple[Decimal, Decimal]:
    """Give the price points on both sides of a price.

    Parameters
    ----------
    price : Decimal
        As it is shown.
    step : Decimal
        Points lie so far apart; above 0.
    less : Decimal
        So much below a full step, as 1 for 489.

    Returns
    -------
    tuple of Decimal
        The last one below the price, and the first that is not.

    Examples
    --------
    >>> price_points(Decimal("480.20"), Decimal(10), Decimal(1))
    (Decimal('479'), Decimal('489'))
    """
    count = ((price + less) / step).to_integral_value("ROUND_CEILING")
    above = count * step - less
    return above - step, above
