"""How much to buy at a time, where the same is used month after month."""

from __future__ import annotations

from decimal import Decimal

from pourwright.foundation.checks import Range, checked

ABOVE = Range(0, open_low=True)


@checked(demand=ABOVE, order=ABOVE, holding=ABOVE)
def economic_lot(demand: Decimal, order: Decimal, holding: Decimal) -> Decimal:
    """Amount at which ordering and keeping together cost least.

    Parameters
    ----------
    demand : Decimal
        Used in a year.
    order : Decimal
        Money that each order costs beside what is bought.
    holding : Decimal
        Money that one unit on the shelf costs in a year.

    Returns
    -------
    Decimal
        In the unit of the demand.

    Notes
    -----
    ``sqrt(2 D S / H)``, for even use and no shortage. [heizer-render]

    Examples
    --------
    >>> int(economic_lot(Decimal(1000), Decimal(10), Decimal("0.5")))
    200
    """
    return (2 * Decimal(demand) * Decimal(order) / Decimal(holding)).sqrt()
