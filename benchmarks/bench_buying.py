"""Purchases of 30 items: cheapest and proven within 5 s.

Made-up lists: two or three offers for an item from four suppliers, kits of six sizes, prices that fall at 3
and 10 kits, some that keep 30 or 90 days, three suppliers with a fee or a least order. Needs on one to four
days, as an order list gathers them; up to six besides. Beside it the same program without rows of whole kits.
"""

import random
from datetime import date, timedelta
from decimal import Decimal
from time import perf_counter, process_time

from pourwright.line.buying import cheapest as room
from pourwright.line.buying.cheapest import cheapest
from pourwright.line.buying.offers import Offer, Terms, Wanted
from pourwright.line.buying.stock import Need

TODAY = date(2027, 1, 4)
ITEMS, LIMIT = 30, 20.0
TERMS = {
    "s1": Terms(Decimal(100), Decimal(12)),
    "s2": Terms(Decimal(0), Decimal(8)),
    "s3": Terms(Decimal(250)),
}


def a_list(seed: int, most: int) -> Wanted:
    """Return needs and offers of 30 items on up to so many days."""
    lots = random.Random(seed)  # noqa: S311 - nothing secret
    needs: list[tuple[Need, ...]] = []
    offers: list[Offer] = []
    for item in range(ITEMS):
        days = [TODAY + timedelta(14 + 14 * number) for number in range(lots.randint(1, most))]
        needs.append(tuple(Need(day, lots.uniform(1, 20)) for day in days))
        for _ in range(lots.choice((2, 3))):
            kit = lots.choice((1, 2, 5, 10, 12, 25))
            price = Decimal(lots.randint(10, 40) * kit)
            prices = ((1, price), (3, price * Decimal("0.95")), (10, price * Decimal("0.9")))
            keeps, delivery = lots.choice((None, 30, 90)), lots.choice((3, 7, 14))
            offers.append(Offer(item, f"s{lots.randint(1, 4)}", kit, prices, 1, keeps, delivery))
    return Wanted(TODAY, tuple(needs), tuple(offers), TERMS)


class _Plain(room._Program):  # noqa: SLF001 - the rows that are measured
    def _whole_kits(self, item: int) -> None:
        del item


def main() -> None:
    """Print the table."""
    print("30 items: days, money, least, proven, s of wall, s of work; then without the rows of whole kits")
    for most in (1, 2, 4, 6):
        for seed in range(4):
            wanted = a_list(seed, most)
            told = _timed(wanted)
            ours = room._Program  # noqa: SLF001 - as above
            room._Program = _Plain  # type: ignore[misc] # noqa: SLF001
            plain = _timed(wanted)
            room._Program = ours  # type: ignore[misc] # noqa: SLF001
            print(f"  {most}: {told}; {plain}", flush=True)


def _timed(wanted: Wanted) -> str:
    begun, worked = perf_counter(), process_time()
    found = cheapest(wanted, seconds=LIMIT)
    took = f"{perf_counter() - begun:.1f}, {process_time() - worked:.1f}"
    return f"{found.money:.2f}, {found.least:.2f}, {found.proven}, {took}"


if __name__ == "__main__":
    main()
