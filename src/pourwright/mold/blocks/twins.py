"""Blocks of one size, and what keeps each in its own place."""

from __future__ import annotations

from collections.abc import Sequence

NEAR = 1e-3
FIRST, SPREAD = 0.2, 0.3
"""Share of the longer side at which the first screw of a block stands, and of its last twin at most."""


def twins_of(sizes: Sequence[tuple[float, float, float]]) -> list[list[int]]:
    """Find for each block those that have its size, turned as they may be.

    Parameters
    ----------
    sizes : sequence of tuple of float
        Of every block [m]; sides within a millimetre count as the same.

    Returns
    -------
    list of list of int
        Numbers of the others, for each.

    Examples
    --------
    >>> twins_of([(0.1, 0.2, 0.3), (0.3, 0.1, 0.2), (0.1, 0.2, 0.2)])
    [[1], [0], []]
    """
    ordered = [sorted(size) for size in sizes]
    return [
        [n for n, other in enumerate(ordered) if n != number and _alike(size, other)]
        for number, size in enumerate(ordered)
    ]


def _alike(one: Sequence[float], other: Sequence[float]) -> bool:
    return all(abs(a - b) < NEAR for a, b in zip(one, other, strict=True))


def first_screw(number: int, twins: Sequence[int]) -> float:
    """Share of the longer side at which the first screw of a block stands: none of its twins has the same.

    Parameters
    ----------
    number : int
        Of the block.
    twins : sequence of int
        Numbers of those of its size.

    Returns
    -------
    float
        From the foot, or from the left edge.

    Examples
    --------
    >>> first_screw(3, []), first_screw(1, [7]), first_screw(7, [1])
    (0.2, 0.2, 0.35)
    """
    before = sum(other < number for other in twins)
    return FIRST + SPREAD * before / (len(twins) + 1)
