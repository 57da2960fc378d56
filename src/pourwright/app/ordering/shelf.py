"""What of the needs the shop's book has on stock, the first to expire first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from zoneinfo import ZoneInfo

from pourwright.app.booking.places import book_place
from pourwright.app.booking.stock import open_needs
from pourwright.app.ordering.look import OrderLook
from pourwright.app.ordering.needs import Thing, Wants
from pourwright.foundation.notation import format_mass
from pourwright.line.buying.stock import LEAST, Lot, Need, from_stock
from pourwright.records import Lot as Kept, lots_of, open_book, plan_by_id, reservations_of

PARTS = ("A", "B")
KINDS = {"resin": "resin", "rubber": "rubber", "glass": "glass", "item": "consumable"}
"""What of the needs a book has lots of."""


@dataclass(frozen=True, slots=True)
class FromShelf:
    """So much of a lot."""

    lot: Kept
    amount: float


@dataclass(frozen=True)
class Shelf:
    """Lots of the shop, and what other pieces need of them.

    Parameters
    ----------
    lots : tuple of Kept
        As the book has them.
    others : tuple of (str, str, str, str, Need)
        Kind, material, colour and grade of what is reserved for other jobs.
    zone : ZoneInfo
        In which a lot's last day ends.
    """

    lots: tuple[Kept, ...]
    others: tuple[tuple[str, str, str, str, Need], ...]
    zone: ZoneInfo

    def take(
        self, thing: Thing, needs: Sequence[Need], shares: tuple[float, float]
    ) -> tuple[list[FromShelf], list[Need]]:
        """Take what there is of a thing.

        Parameters
        ----------
        thing : Thing
            What.
        needs : sequence of Need
            By day.
        shares : tuple of float
            Of parts A and B by weight; what is sold in two parts is missing as its scarcer part is.

        Returns
        -------
        tuple of (list of FromShelf, list of Need)
            What is taken, and what is missing.
        """
        if thing.of in ("resin", "rubber") and min(shares) > 0:
            return self._two_parts(thing, needs, shares)
        return self._part(thing, thing.grade, needs)

    def _two_parts(
        self, thing: Thing, needs: Sequence[Need], shares: tuple[float, float]
    ) -> tuple[list[FromShelf], list[Need]]:
        missing: dict[date, float] = {}
        for part, share in zip(PARTS, shares, strict=True):
            for each in self._part(thing, part, _scaled(needs, share))[1]:
                missing[each.day] = max(missing.get(each.day, 0.0), each.amount / share)
        short = [Need(day, amount) for day, amount in sorted(missing.items())]
        # of the other part only as much as there is mix for: the rest goes with what is bought
        mixed = _less(_by_day(needs), short)
        both = zip(PARTS, shares, strict=True)
        taken = [one for part, share in both for one in self._part(thing, part, _scaled(mixed, share))[0]]
        return taken, short

    def _part(self, thing: Thing, grade: str, needs: Sequence[Need]) -> tuple[list[FromShelf], list[Need]]:
        needs = _by_day(needs)
        kept = [lot for lot in self.lots if _is(lot, thing, grade) and lot.left > LEAST]
        reserved = [each[-1] for each in self.others if _reserves(each[:-1], thing, grade)]
        lots = [Lot(lot.left, self._last_day(lot)) for lot in kept]
        every = [*reserved, *needs]
        taken, _ = from_stock(lots, every)
        # what is reserved for others is gone, and not bought here
        ours = [one for one in taken if one.need >= len(reserved)]
        got: dict[int, float] = {}
        of_lot: dict[int, float] = {}
        for one in ours:
            got[one.need] = got.get(one.need, 0.0) + one.amount
            of_lot[one.lot] = of_lot.get(one.lot, 0.0) + one.amount
        left = [Need(need.day, got.get(len(reserved) + at, 0.0)) for at, need in enumerate(needs)]
        return [FromShelf(kept[lot], amount) for lot, amount in of_lot.items()], _less(needs, left)

    def _last_day(self, lot: Kept) -> date | None:
        return None if lot.expires is None else lot.expires.astimezone(self.zone).date()


def lots_without_part(look: OrderLook, shelf: Shelf, things: Sequence[Thing]) -> Iterator[str]:
    """Lots of resin and rubber that are not used, since nobody said whether they are part A or B."""
    of = {thing.id for thing in things if thing.of in ("resin", "rubber")}
    for lot in shelf.lots:
        if lot.kind in ("resin", "rubber") and lot.material in of and lot.grade not in PARTS:
            left = format_mass(lot.left, look.system)
            yield (
                f"Lot {lot.id}, {left} of {lot.material}, is not counted: it is not said whether it is part "
                "A or B. Book it anew by its parts, and this lot as empty."
            )


def _by_day(needs: Sequence[Need]) -> list[Need]:
    summed: dict[date, float] = {}
    for need in needs:
        summed[need.day] = summed.get(need.day, 0.0) + need.amount
    return [Need(day, amount) for day, amount in sorted(summed.items())]


def _scaled(needs: Sequence[Need], share: float) -> list[Need]:
    return [Need(need.day, share * need.amount) for need in needs]


def _less(needs: Sequence[Need], off: Sequence[Need]) -> list[Need]:
    """What remains of needs by day."""
    took = {need.day: need.amount for need in off}
    rest = [Need(need.day, need.amount - took.get(need.day, 0.0)) for need in needs]
    return [need for need in rest if need.amount > LEAST]


def _is(lot: Kept, thing: Thing, grade: str) -> bool:
    if lot.kind != KINDS.get(thing.of):
        return False
    if thing.of == "glass":
        return (lot.colour, lot.grade) == (thing.colour, grade)
    if thing.of == "item":
        return thing.id in (lot.material, lot.name)
    return (lot.material, lot.grade) == (thing.id, grade)


def _reserves(reserved: Iterable[str], thing: Thing, grade: str) -> bool:
    kind, material, colour, part = reserved
    if kind != KINDS.get(thing.of):
        return False
    if thing.of == "glass":
        return (colour, part) == (thing.colour, grade)
    return (material, part) == (thing.id, grade)


def shelf_of(look: OrderLook) -> Shelf:
    """Read the shop's book, where there is one.

    Parameters
    ----------
    look : OrderLook
        Its own jobs' reservations are not held against them: their pieces are in the list.

    Returns
    -------
    Shelf
    """
    place = book_place(look.orders.path.resolve().parent)
    if not place.is_file():
        return Shelf((), (), look.hours.zone)
    own = {made.folder.resolve().name for made in look.made}
    with open_book(place, make=False) as book, book.reading():
        lots = tuple(lot for lot in lots_of(book) if lot.kind != "mold")
        others = []
        for one in reservations_of(book):
            if plan_by_id(book, one.plan_id).job in own:
                continue
            for need in open_needs(book, one):
                at = need.at.astimezone(look.hours.zone).date()
                others.append((*need.thing, Need(at, need.amount)))
    return Shelf(lots, tuple(others), look.hours.zone)


def shares_of(look: OrderLook, wants: Wants) -> dict[Thing, tuple[float, float]]:
    """Parts A and B of what is mixed from two, by weight."""
    found: dict[Thing, tuple[float, float]] = {}
    for made in look.made:
        fill, rubber = made.plan.fill.parts_by_weight, made.plan.mold.rubber
        for thing, parts in (
            (Thing("resin", made.plan.piece.casting_material), fill),
            (Thing("rubber", rubber.id), rubber.parts_by_weight),
        ):
            if thing in wants and parts is not None:
                found[thing] = (parts[0] / sum(parts), parts[1] / sum(parts))
    return found
