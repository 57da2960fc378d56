"""What is asked of a line: orders, products, people, working time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from pourwright.line.dates.castings import Castings, castings_of
from pourwright.line.dates.halves import Halves
from pourwright.line.dates.route import Route


@dataclass(frozen=True, slots=True)
class Order:
    """So many pieces by a day.

    Parameters
    ----------
    name : str
        Whose.
    product : int
        Position of its route.
    count : int
        Good pieces.
    due : int
        First half day after the wanted day.
    """

    name: str
    product: int
    count: int
    due: int


@dataclass(frozen=True)
class Line:
    """Everything that dates are found from.

    Parameters
    ----------
    halves : Halves
        Working time.
    people : int
        That work at once.
    routes : sequence of Route
        Products.
    orders : sequence of Order
        In the order of the list.
    """

    halves: Halves
    people: int
    routes: Sequence[Route]
    orders: Sequence[Order]

    @cached_property
    def castings(self) -> tuple[Castings, ...]:
        """Of each product."""
        return tuple(castings_of(route, self.halves) for route in self.routes)

    @property
    def by_need(self) -> list[int]:
        """Positions of the orders, the first wanted first."""
        return sorted(range(len(self.orders)), key=lambda at: (self.orders[at].due, at))
