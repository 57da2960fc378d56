"""The cheapest whole kits that are there in time and keep long enough, by integer program."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from decimal import Decimal
from itertools import combinations
from math import ceil

import numpy as np
import numpy.typing as npt
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from pourwright.line.buying.offers import NOTHING, Bought, Offer, Purchase, Terms, Wanted
from pourwright.line.buying.stock import LEAST

Floats = npt.NDArray[np.float64]
SECONDS = 20.0


class CannotBeThere(Exception):  # noqa: N818 - becomes a UserError once its item has a name
    """An item that no offer brings in time: its position, its day, the first day on which it could come."""

    def __init__(self, item: int, day: date, earliest: date | None) -> None:
        super().__init__(item, day, earliest)
        self.item, self.day, self.earliest = item, day, earliest


def cheapest(wanted: Wanted, *, seconds: float = SECONDS) -> Purchase:
    """Find the cheapest purchase that covers every need.

    Parameters
    ----------
    wanted : Wanted
        Needs, offers and terms.
    seconds : float
        Limit of time [s]; what was found by then stands, unproven.

    Returns
    -------
    Purchase

    Raises
    ------
    CannotBeThere
        For a need that no offer covers in time.

    Notes
    -----
    Kits come on days of need. Every price of an offer has its own whole number of kits, and one of them at
    most is chosen for a day; what comes flows to needs while it keeps. Solved by HiGHS, money added up
    exactly afterwards.
    """
    for item, needs in enumerate(wanted.needs):
        for need in needs:
            _refuse_too_late(wanted, item, need.day)
    program = _Program(wanted)
    if not program.costs:
        return Purchase((), (), NOTHING, proven=True, least=0.0)
    found = milp(
        np.array(program.costs),
        integrality=np.array(program.whole),
        bounds=Bounds(np.zeros(len(program.costs)), np.array(program.upper)),
        constraints=program.constraint(),
        options={"time_limit": seconds, "mip_rel_gap": 0.0},
    )
    assert found.x is not None
    return program.read(found.x, float(found.mip_dual_bound))


def _refuse_too_late(wanted: Wanted, item: int, day: date) -> None:
    of_item = [offer for offer in wanted.offers if offer.item == item]
    soonest = min((wanted.today + timedelta(offer.delivery) for offer in of_item), default=None)
    if soonest is None or soonest > day:
        raise CannotBeThere(item, day, soonest)


@dataclass(frozen=True, slots=True)
class _Choice:
    """So many kits of an offer on a day at one of its prices: two columns, the number and whether."""

    offer: int
    comes: date
    price: Decimal
    kits: int
    taken: int


@dataclass
class _Program:
    """Columns and rows, as they are written."""

    wanted: Wanted
    costs: list[float] = field(default_factory=list)
    upper: list[float] = field(default_factory=list)
    whole: list[int] = field(default_factory=list)
    entries: list[tuple[int, int, float]] = field(default_factory=list)
    limits: list[tuple[float, float]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.choices: list[_Choice] = []
        self.flows: list[tuple[int, date, int]] = []
        self.orders: dict[tuple[str, date], int] = {}
        into: dict[tuple[int, int], list[int]] = {}
        for at, offer in enumerate(self.wanted.offers):
            for comes in self._days(offer):
                self._offer(at, offer, comes, into)
        for (item, number), columns in into.items():
            need = self.wanted.needs[item][number]
            self._row([(column, 1.0) for column in columns], need.amount, np.inf)
        for item in range(len(self.wanted.needs)):
            self._whole_kits(item)
        self._terms()

    def _column(self, cost: float = 0.0, upper: float = np.inf, *, whole: bool = False) -> int:
        self.costs.append(cost)
        self.upper.append(upper)
        self.whole.append(int(whole))
        return len(self.costs) - 1

    def _row(self, terms: Sequence[tuple[int, float]], low: float, high: float) -> None:
        row = len(self.limits)
        self.entries += [(row, column, value) for column, value in terms]
        self.limits.append((low, high))

    def _days(self, offer: Offer) -> list[date]:
        """Days on which it can be there: those on which something may come, and those of needs they miss."""
        soonest = self.wanted.today + timedelta(offer.delivery)
        needs = [need for need in self.wanted.needs[offer.item] if need.day >= soonest]
        last = max((need.day for need in needs), default=soonest)
        days = {day for day in self.wanted.comes if soonest <= day <= last}
        for need in needs:
            if not any(offer.serves(day, need) for day in days):
                days.add(need.day)
        return sorted(days if self.wanted.comes else {need.day for need in needs})

    def _offer(self, at: int, offer: Offer, comes: date, into: dict[tuple[int, int], list[int]]) -> None:
        """Kits of an offer that come on a day, and the needs that they flow to."""
        needs = self.wanted.needs[offer.item]
        reached = [number for number, need in enumerate(needs) if offer.serves(comes, need)]
        enough = ceil(sum(needs[number].amount for number in reached) / offer.kit - LEAST)
        # more than is needed only to reach a lower price, or an order that is large enough
        least = self.wanted.terms.get(offer.supplier, Terms()).least / min(price for _, price in offer.prices)
        most = max(enough, offer.fewest, offer.prices[-1][0], ceil(least))
        chosen = list(self._prices(at, offer, comes, most))
        self._row([(choice.taken, 1.0) for choice in chosen], 0.0, 1.0)
        flows = []
        for number in reached:
            flows.append(self._column(upper=needs[number].amount))
            self.flows.append((at, comes, flows[-1]))
            into.setdefault((offer.item, number), []).append(flows[-1])
        bought = [(choice.kits, -offer.kit) for choice in chosen]
        self._row([*((flow, 1.0) for flow in flows), *bought], -np.inf, 0.0)

    def _prices(self, at: int, offer: Offer, comes: date, most: int) -> Iterator[_Choice]:
        starts = [start for start, _ in offer.prices]
        for (start, price), end in zip(offer.prices, [*(each - 1 for each in starts[1:]), most], strict=True):
            fewest = max(start, offer.fewest)
            if fewest > end:
                continue
            kits, taken = self._column(float(price), whole=True), self._column(upper=1.0, whole=True)
            self._row([(kits, 1.0), (taken, -float(fewest))], 0.0, np.inf)
            self._row([(kits, 1.0), (taken, -float(end))], -np.inf, 0.0)
            choice = _Choice(at, comes, price, kits, taken)
            self.choices.append(choice)
            yield choice

    def _whole_kits(self, item: int) -> None:
        """Say for each run of needs that kits are whole: follows from the rest, proves ten times sooner."""
        needs = self.wanted.needs[item]
        own = [each for each in self.choices if self.wanted.offers[each.offer].item == item]
        for first, last in combinations(range(len(needs) + 1), 2):
            run = needs[first:last]
            reach = [(each, self.wanted.offers[each.offer]) for each in own]
            reach = [pair for pair in reach if any(pair[1].serves(pair[0].comes, need) for need in run)]
            self._row([(each.taken, 1.0) for each, _ in reach], 1.0, np.inf)
            amount = sum(need.amount for need in run)
            for size in {offer.kit for _, offer in reach}:
                terms = [(each.kits, float(ceil(offer.kit / size - LEAST))) for each, offer in reach]
                self._row(terms, float(ceil(amount / size - LEAST)), np.inf)

    def _terms(self) -> None:
        """An order of a supplier on a day: sent for once, and large enough."""
        for choice in self.choices:
            supplier = self.wanted.offers[choice.offer].supplier
            terms = self.wanted.terms.get(supplier, Terms())
            if terms.fee or terms.least:
                key = (supplier, choice.comes)
                if key not in self.orders:
                    self.orders[key] = self._column(float(terms.fee), 1.0, whole=True)
                self._row([(choice.taken, 1.0), (self.orders[key], -1.0)], -np.inf, 0.0)
        for (supplier, comes), order in self.orders.items():
            of_order = [
                (choice.kits, float(choice.price))
                for choice in self.choices
                if (self.wanted.offers[choice.offer].supplier, choice.comes) == (supplier, comes)
            ]
            self._row([*of_order, (order, -float(self.wanted.terms[supplier].least))], 0.0, np.inf)

    def constraint(self) -> LinearConstraint:
        """All rows."""
        rows, columns, values = (np.array(each) for each in zip(*self.entries, strict=True))
        low, high = np.array(self.limits).T
        shape = (len(self.limits), len(self.costs))
        return LinearConstraint(csr_array((values, (rows, columns)), shape=shape), low, high)

    def _together(self, bought: list[Bought]) -> list[Bought]:
        """Put later kits to the first ones of their offer, where that costs no more and all of it keeps."""
        first: dict[int, Bought] = {}
        for each in sorted(bought, key=lambda one: one.comes):
            offer = self.wanted.offers[each.offer]
            before = first.get(each.offer)
            free = offer.keeps is None and offer.supplier not in self.wanted.terms
            if before is None or not free:
                first[each.offer if free else -len(first) - 1] = each
                continue
            kits = before.kits + each.kits
            money = min(offer.price(kits) * kits, before.money + each.money)
            first[each.offer] = replace(before, kits=kits, money=money, used=before.used + each.used)
        return list(first.values())

    def read(self, values: Floats, least: float) -> Purchase:
        """What is bought when, its money exact."""
        used: dict[tuple[int, date], float] = {}
        for at, comes, column in self.flows:
            used[at, comes] = used.get((at, comes), 0.0) + float(values[column])
        bought = [
            Bought(each.offer, each.comes, kits, each.price * kits, used[each.offer, each.comes])
            for each in self.choices
            if (kits := round(values[each.kits]))
        ]
        bought = self._together(bought)
        bought.sort(key=lambda each: (each.comes, self.wanted.offers[each.offer].supplier, each.offer))
        ordered = {(self.wanted.offers[each.offer].supplier, each.comes) for each in bought}
        sent = tuple(
            (supplier, comes, fee)
            for supplier, comes in sorted(ordered, key=lambda each: each[::-1])
            if (fee := self.wanted.terms.get(supplier, Terms()).fee)
        )
        money = sum((each.money for each in bought), NOTHING) + sum((fee for *_, fee in sent), NOTHING)
        return Purchase(tuple(bought), sent, money, float(money) <= least + 1e-4, least)
