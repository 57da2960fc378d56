"""Parts laid one after another into the pieces that are left, from many starts."""

import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from operator import mul

from pourwright.geometry.nesting.asked import HAIR, Part, Saw, Stock, sizes_of
from pourwright.geometry.nesting.tree import Axis, Growing

STARTS = 400
Rule = Callable[[float, float], float]
RULES: tuple[Rule, ...] = (min, max, mul)
ORDERS: tuple[Callable[[Part], float], ...] = (
    lambda part: part.width * part.height,
    lambda part: max(part.width, part.height),
    lambda part: min(part.width, part.height),
    lambda part: part.width + part.height,
    lambda part: part.width,
    lambda part: part.height,
)


@dataclass(slots=True)
class Open:
    """A sheet that is begun, with the pieces that nothing lies on yet."""

    stock: Stock
    root: Growing
    free: list[Growing]


@dataclass(frozen=True, slots=True)
class Start:
    """How one start lays its parts."""

    order: tuple[Part, ...]
    rule: Rule
    longer: bool


def starts(parts: Sequence[Part], seed: int, number: int = STARTS) -> list[Start]:
    """Return the plain orders under each rule, and mixed ones after them, the same for the same seed."""
    every = [part for part in parts for _ in range(part.count)]
    plain = [
        Start(tuple(sorted(every, key=order, reverse=True)), rule, longer)
        for order in ORDERS
        for rule in RULES
        for longer in (False, True)
    ]
    lots = random.Random(seed)  # noqa: S311 - nothing secret
    mixed = []
    for _ in range(number - len(plain)):
        chosen = lots.choice(ORDERS)
        weights = [chosen(part) * lots.uniform(0.7, 1.3) for part in every]
        order = sorted(range(len(every)), key=[-weight for weight in weights].__getitem__)
        mixed.append(Start(tuple(every[at] for at in order), lots.choice(RULES), lots.random() < 0.5))
    return plain + mixed


def opened(stock: Stock, saw: Saw) -> Open:
    """Return a trimmed sheet, one kerf larger at two edges, as inflated parts need it."""
    grow = saw.kerf - 2 * saw.trim
    root = Growing(saw.trim, saw.trim, stock.width + grow, stock.height + grow, saw.kerf)
    return Open(stock, root, [root])


def lay_part(part: Part, sheet: Open, start: Start) -> bool:
    """Lay a part into the free piece of a sheet that it suits best; say whether one was found."""
    kerf = sheet.root.kerf
    best: tuple[float, int, float, float] | None = None
    for width, height in sizes_of(part, free=sheet.stock.free):
        for at, piece in enumerate(sheet.free):
            right, above = piece.width - width - kerf + HAIR, piece.height - height - kerf + HAIR
            if right < 0 or above < 0:
                continue
            found = (start.rule(right, above), at, width + kerf, height + kerf)
            best = found if best is None or found < best else best
    if best is None:
        return False
    _, at, width, height = best
    _cut_out(part, sheet, sheet.free.pop(at), (width, height), longer=start.longer)
    return True


def _cut_out(part: Part, sheet: Open, piece: Growing, size: tuple[float, float], *, longer: bool) -> None:
    right, above = piece.width - size[0], piece.height - size[1]
    across_first = (right < above) == longer
    cuts: list[tuple[Axis, float]] = [("x", size[0]), ("y", size[1])]
    for axis, at in cuts if across_first else cuts[::-1]:
        first = piece.split(axis, at)
        if first is not piece:
            sheet.free.append(piece.halves[1])
        piece = first
    piece.part = part


def grown_value(
    parts: Sequence[Part], stock: Stock, saw: Saw, seed: int, worth: Callable[[Part], float]
) -> tuple[Growing, float]:
    """Return the tree of one sheet with the most value of all starts, and that value."""
    best, most = opened(stock, saw).root, 0.0
    for start in starts(parts, seed):
        dense = tuple(sorted(start.order, key=lambda part: -worth(part) / (part.width * part.height)))
        for order in (start.order, dense):
            sheet = opened(stock, saw)
            value = sum(worth(part) for part in order if lay_part(part, sheet, start))
            if value > most + HAIR:
                best, most = sheet.root, value
    return best, most
