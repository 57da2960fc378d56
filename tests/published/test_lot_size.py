"""How much to buy at a time.

H12: Heizer and Render, Operations Management, inventory models, example of the economic order quantity; from
memory.
"""

from decimal import Decimal

from pourwright.line.buying.lot_size import economic_lot


def test_economic_order_quantity() -> None:
    # H12: 1000 units a year, 10 an order, 0.50 a unit and year
    assert economic_lot(Decimal(1000), Decimal(10), Decimal("0.50")) == 200
