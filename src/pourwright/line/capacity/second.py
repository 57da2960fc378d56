"""When a second mold pays: what it adds each month against its price and its life."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal

from pourwright.foundation.checks import Range, checked

MONEY = Range(0)


@dataclass(frozen=True, slots=True)
class SecondMold:
    """What one mold more brings.

    Parameters
    ----------
    added : Decimal
        Money that it adds in a month, before its own price.
    months : int or None
        Whole months until its price has come back; None where it never does.
    life : Decimal
        Months until it is worn out by the pieces that it adds; 0 where it adds none.
    earned : Decimal
        Over its life, its price paid.
    """

    added: Decimal
    months: int | None
    life: Decimal
    earned: Decimal

    @property
    def pays(self) -> bool:
        """Whether it brings in more than it costs."""
        return self.earned > 0


@checked(price=Range(0, open_low=True), pieces=MONEY, good=Range(1))
def second_mold(price: Decimal, left: Decimal, pieces: Decimal, good: Decimal) -> SecondMold:
    """Weigh the price of a second mold against what it adds.

    Parameters
    ----------
    price : Decimal
        Of the mold.
    left : Decimal
        What one piece leaves, its own material and hours paid, the mold not.
    pieces : Decimal
        Good ones that it adds in a month, and that are sold.
    good : Decimal
        Good pieces that it gives in its life.

    Returns
    -------
    SecondMold

    Examples
    --------
    >>> second_mold(Decimal(600), Decimal(80), Decimal(3), Decimal(27)).months
    3
    """
    added = Decimal(left) * Decimal(pieces)
    if added <= 0:
        return SecondMold(added, None, Decimal(0), -Decimal(price))
    life, earned = Decimal(good) / Decimal(pieces), Decimal(left) * Decimal(good) - Decimal(price)
    months = int((Decimal(price) / added).to_integral_value(ROUND_CEILING)) if earned >= 0 else None
    return SecondMold(added, months, life, earned)
