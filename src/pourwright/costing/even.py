"""Break-even: how many pieces pay what is spent once."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from pourwright.foundation.checks import Range, checked

NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class Even:
    """Where nothing is lost and nothing earned.

    Parameters
    ----------
    units : int or None
        Whole pieces; None where no number of them pays.
    revenue : Decimal or None
        What they fetch.
    ratio : Decimal
        Share of the price that is left after what each piece costs [-].
    """

    units: int | None
    revenue: Decimal | None
    ratio: Decimal


def break_even(fixed: Decimal, price: Decimal, variable: Decimal, target: Decimal = NOTHING) -> Even:
    """Count the pieces that pay what is spent once, and a profit besides.

    Parameters
    ----------
    fixed : Decimal
        Spent once.
    price : Decimal
        That one piece fetches; above 0.
    variable : Decimal
        That each piece costs.
    target : Decimal
        Profit wanted.

    Returns
    -------
    Even

    Examples
    --------
    >>> break_even(Decimal(50_000), Decimal(25), Decimal(15)).units
    5000
    """
    left = price - variable
    if left <= 0:
        return Even(None, None, left / price)
    units = int(((fixed + target) / left).to_integral_value("ROUND_CEILING"))
    return Even(units, units * price, left / price)


def months_until(fixed: Decimal, left: Decimal, per_month: Decimal, monthly: Decimal = NOTHING) -> int | None:
    """Count the months until what was spent once has come back.

    Parameters
    ----------
    fixed : Decimal
        Spent once.
    left : Decimal
        Of each piece sold.
    per_month : Decimal
        Pieces sold in a month.
    monthly : Decimal
        Paid every month, whatever is sold.

    Returns
    -------
    int or None
        Whole months; None where it never does.

    Examples
    --------
    >>> months_until(Decimal(1000), Decimal(100), Decimal(4), Decimal(200))
    5
    """
    earned = left * per_month - monthly
    if earned <= 0:
        return None if fixed > 0 else 0
    return int((fixed / earned).to_integral_value("ROUND_CEILING"))


@checked(sold=Range(0, open_low=True))
def margin_of_safety(sold: Decimal, units: int) -> Decimal:
    """Tell by what share sales may fall before money is lost.

    Parameters
    ----------
    sold : Decimal
        Pieces sold.
    units : int
        Pieces that pay, from `break_even`.

    Returns
    -------
    Decimal
        Below 0 where too few are sold [-].

    Examples
    --------
    >>> margin_of_safety(Decimal(8000), 5000)
    Decimal('0.375')
    """
    return (Decimal(sold) - units) / Decimal(sold)


@checked(interest=Range(0), years=Range(0, open_low=True))
def capital_recovery(interest: Decimal, years: Decimal) -> Decimal:
    """Share of a tool's price that each year has to bring back, with interest.

    Parameters
    ----------
    interest : Decimal
        Of a year [-].
    years : Decimal
        That it lasts.

    Returns
    -------
    Decimal
        [1/year]

    Notes
    -----
    i / (1 - (1 + i)^-n), the factor A/P of engineering economy; 1/n without interest.

    Examples
    --------
    >>> round(1000 * capital_recovery(Decimal("0.1"), Decimal(5)), 2)
    Decimal('263.80')
    """
    i, n = Decimal(interest), Decimal(years)
    return 1 / n if i == 0 else i / (1 - (1 + i) ** -n)
