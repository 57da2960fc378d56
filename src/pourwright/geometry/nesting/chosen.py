"""Which of these parts fit on this offcut: the most value, proven where it is small."""

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from pourwright.geometry.nesting.asked import HAIR, Part, Saw, Stock, fits, refuse, sizes_of
from pourwright.geometry.nesting.grown import grown_value, opened
from pourwright.geometry.nesting.tree import Axis, Growing, Piece

MOST_SPLITS, MOST_PAIRS = 1_500_000, 2_000_000
Counts = tuple[int, ...]
Sides = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Shape:
    """A rectangle [m] that holds some parts: one part, or two shapes side by side."""

    width: float
    height: float
    part: int = -1
    axis: Axis = "x"
    halves: tuple["Shape", ...] = ()


Halving = tuple[list[Shape], list[Shape]]
AXES: tuple[Axis, ...] = ("x", "y")


@dataclass(frozen=True, slots=True)
class Choice:
    """What is cut from the offcut, its value, and whether more is proven to be impossible."""

    sheet: Stock
    root: Piece
    value: float
    proven: bool

    @property
    def placed(self) -> tuple[Piece, ...]:
        """The parts where they lie."""
        return tuple(leaf for leaf in self.root.leaves() if leaf.part is not None)


def worth(part: Part) -> float:
    """Value of one part; its area [m2] where none is given."""
    return part.width * part.height if part.value is None else part.value


def choose_parts(parts: Sequence[Part], sheet: Stock, saw: Saw, seed: int = 0) -> Choice:
    """Choose the parts of most value that one sheet gives by straight cuts from edge to edge.

    All collections of parts are joined from smaller ones, side by side or one above the other; a collection
    keeps only the rectangles that none of its others fits into. Where that is too much, parts are laid by
    many starts, and nothing is proven.

    Parameters
    ----------
    parts : sequence of Part
        At most `count` of each is taken.
    sheet : Stock
        Its count is not looked at.
    saw : Saw
        Kerf and trim [m].
    seed : int
        For the starts.

    Returns
    -------
    Choice

    Raises
    ------
    UserError
        For sizes, counts, values and kerf that cannot be.

    References
    ----------
    P. Y. Wang, Two algorithms for constrained two-dimensional cutting stock problems, Operations Research 31
    (1983) 573 (citation from memory).
    """
    refuse(parts, [sheet], saw)
    some = [part for part in parts if fits(part, sheet, saw)]
    root = opened(sheet, saw).root
    if not some:
        return Choice(sheet, root.finished(), 0.0, proven=True)
    found = _joined(some, root, free=sheet.free) if _splits(some) <= MOST_SPLITS else None
    if found is None:
        root, value = grown_value(some, sheet, saw, seed, worth)
        return Choice(sheet, root.finished(), value, proven=value >= sum(p.count * worth(p) for p in some))
    counts = max(found, key=lambda taken: (_value(taken, some), -sum(taken)))
    if any(counts):
        lay(min(found[counts], key=lambda shape: (shape.width, shape.height)), root, some)
    return Choice(sheet, root.finished(), _value(counts, some), proven=True)


def lay(shape: Shape, piece: Growing, parts: Sequence[Part]) -> None:
    """Cut a shape out of a piece, and its parts out of it."""
    piece = piece.split("x", shape.width).split("y", shape.height)
    if not shape.halves:
        piece.part = parts[shape.part]
        return
    first, second = shape.halves
    piece.split(shape.axis, first.width if shape.axis == "x" else first.height)
    for half, inner in zip(piece.halves, (first, second), strict=True):
        lay(inner, half, parts)


def _value(counts: Counts, parts: Sequence[Part]) -> float:
    return sum(n * worth(part) for n, part in zip(counts, parts, strict=True))


def _splits(parts: Sequence[Part]) -> int:
    """Number of ways to halve all collections of parts."""
    ways = 1
    for part in parts:
        ways *= (part.count + 1) * (part.count + 2) // 2
    return ways


def _joined(parts: Sequence[Part], room: Growing, *, free: bool = False) -> dict[Counts, list[Shape]] | None:
    """Return all collections of parts that the room holds, each with its rectangles.

    None where more pairs of rectangles would have to be looked at than a few seconds allow; counted and not
    timed, so that the same question has the same answer on every machine.
    """
    found: dict[Counts, list[Shape]] = {tuple(0 for _ in parts): []}
    ways = [sizes_of(part, free=free) for part in parts]
    every = itertools.product(*(range(part.count + 1) for part in parts))
    pairs = 0
    for counts in sorted(every, key=lambda taken: (sum(taken), taken)):
        if not any(counts) or not _all_smaller(counts, found):
            continue
        halvings = list(_halvings(counts, found))
        pairs += sum(len(ones) * len(twos) for ones, twos in halvings)
        if pairs > MOST_PAIRS:
            return None
        if shapes := _shapes(counts, halvings, ways, room):
            found[counts] = shapes
    return found


def _all_smaller(counts: Counts, found: dict[Counts, list[Shape]]) -> bool:
    return all((*counts[:at], n - 1, *counts[at + 1 :]) in found for at, n in enumerate(counts) if n)


def _shapes(counts: Counts, halvings: Sequence[Halving], ways: Sequence[Sides], room: Growing) -> list[Shape]:
    if sum(counts) > 1:
        return _least([_smallest(halvings, room, axis) for axis in AXES])
    at = counts.index(1)
    sizes = [(width + room.kerf, height + room.kerf) for width, height in ways[at]]
    inside = [size for size in sizes if size[0] <= room.width + HAIR and size[1] <= room.height + HAIR]
    return _least([[Shape(*size, part=at) for size in inside]])


def _halvings(counts: Counts, found: dict[Counts, list[Shape]]) -> Iterator[Halving]:
    for one in itertools.product(*(range(n + 1) for n in counts)):
        two = tuple(n - m for n, m in zip(counts, one, strict=True))
        if one <= two and any(one) and one in found and two in found:
            yield found[one], found[two]


def _smallest(halvings: Sequence[Halving], room: Growing, axis: Axis) -> list[Shape]:
    """Put halves side by side, or one above the other; of each extent keep the one that is least across."""
    along, across = ("width", "height") if axis == "x" else ("height", "width")
    most = getattr(room, along) + HAIR
    least: dict[float, tuple[float, Shape, Shape]] = {}
    for ones, twos in halvings:
        sides = [(getattr(two, along), getattr(two, across), two) for two in twos]
        for one in ones:
            first, height = getattr(one, along), getattr(one, across)
            for second, other, two in sides:
                extent, need = first + second, max(height, other)
                if extent <= most and (extent not in least or need < least[extent][0]):
                    least[extent] = (need, one, two)
    shapes = []
    for extent, (need, one, two) in least.items():
        size = (extent, need) if axis == "x" else (need, extent)
        shapes.append(Shape(*size, axis=axis, halves=(one, two)))
    return shapes


def _least(shapes: Sequence[list[Shape]]) -> list[Shape]:
    """Drop every shape that another one fits into."""
    kept: list[Shape] = []
    for shape in sorted(itertools.chain(*shapes), key=lambda each: (each.width, each.height)):
        if not kept or shape.height < kept[-1].height - HAIR:
            kept.append(shape)
    return kept
