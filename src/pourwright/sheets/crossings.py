"""What closed lines enclose: their ends at a height, and whether a point lies inside."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

Line = Sequence[tuple[float, float]]
Side = tuple[tuple[float, float], tuple[float, float]]


def reach(lines: Sequence[Line], height: float) -> tuple[float, float]:
    """Left and right end of closed lines at a height.

    Parameters
    ----------
    lines : sequence of lines
        To the right and up [m].
    height : float
        [m]

    Returns
    -------
    tuple of float
        [m]; of the whole shape where it has nothing at that height.

    Examples
    --------
    >>> reach([[(0.0, 0.0), (2.0, 0.0), (1.0, 1.0)]], 0.5)
    (0.5, 1.5)
    """
    found = []
    for (x1, z1), (x2, z2) in sides(lines):
        if min(z1, z2) - 1e-9 <= height <= max(z1, z2) + 1e-9:
            share = (height - z1) / (z2 - z1) if z1 != z2 else 0.0
            found.append(x1 + share * (x2 - x1))
    everywhere = found or [x for line in lines for x, _ in line]
    return min(everywhere), max(everywhere)


def within(lines: Sequence[Line], x: float, z: float) -> bool:
    """Whether a point lies inside closed lines, holes left out.

    Parameters
    ----------
    lines : sequence of lines
        To the right and up [m].
    x, z : float
        The point [m].

    Returns
    -------
    bool
        By the number of sides to its right.

    Examples
    --------
    >>> square = [[(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)]]
    >>> within(square, 1.0, 1.0), within(square, 3.0, 1.0)
    (True, False)
    """
    crossed = (
        x < x1 + (z - z1) / (z2 - z1) * (x2 - x1)
        for (x1, z1), (x2, z2) in sides(lines)
        if (z1 <= z) != (z2 <= z)
    )
    return sum(crossed) % 2 == 1


def sides(lines: Sequence[Line]) -> Iterator[Side]:
    """Every side of closed lines, the one that closes each of them too."""
    for line in lines:
        yield from zip(line, [*line[1:], line[0]], strict=True)
