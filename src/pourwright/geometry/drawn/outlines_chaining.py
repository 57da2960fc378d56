"""Lines and arcs of a drawing chained to closed outlines."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress

import numpy as np

from pourwright.foundation.sources import Kind, Sourced
from pourwright.geometry.drawn.outlines_placed import PlacedError
from pourwright.geometry.mesh import Floats, Integers

GAP = Sourced(
    5e-5, "m", 1e-5, 2e-4, Kind.PRACTICE, "common-practice",
    "ends that were drawn to meet differ by rounding in the drawing, by a few hundredths of a millimetre",
)  # fmt: skip
"""How far two ends may lie apart to count as one point."""
_NOTHING = 1e-8


def chained(lines: Sequence[Floats], gap: float = GAP.value) -> list[Floats]:
    """Chain lines end to end.

    Parameters
    ----------
    lines : sequence of array (n, 2)
        Points along each; closed ones end where they begin [m].
    gap : float
        How far two ends may lie apart to count as one point [m].

    Returns
    -------
    list of array (n, 2)
        Closed outlines without repeated last point [m].

    Raises
    ------
    PlacedError
        Where an end meets no other, or more than one.

    Examples
    --------
    >>> corner = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0]])
    >>> back = np.array([[0.0, 0.0], [1.0, 1.0]])
    >>> chained([corner, back])[0].tolist()
    [[0.0, 0.0], [1.0, 0.0], [1.0, 1.0]]
    """
    sizes = [float(np.ptp(line, axis=0).max()) if len(line) > 1 else 0.0 for line in lines]
    shortest = min((size for size in sizes if size > _NOTHING), default=gap)
    if shortest < gap:
        # a curve of many tiny lines is closed end on end; else tiny lines are slips of the pen
        with suppress(PlacedError):
            return chained(lines, shortest / 3)
    kept = [line for line, size in zip(lines, sizes, strict=True) if size > max(gap, _NOTHING)]
    closed = [line[:-1] for line in kept if _near(line[0], line[-1], gap)]
    pending = [line for line in kept if not _near(line[0], line[-1], gap)]
    return [*closed, *_walked(pending, gap)] if pending else closed


def _near(one: Floats, other: Floats, gap: float) -> bool:
    return bool(np.hypot(*(one - other)) <= gap)


def _walked(lines: Sequence[Floats], gap: float) -> list[Floats]:
    """Follow open lines from end to end; end 2 n is the start of line n, 2 n + 1 its last point."""
    ends = np.array([line[place] for line in lines for place in (0, -1)])
    partner = _partners(ends, gap)
    loops, unused = [], dict.fromkeys(range(len(lines)))
    while unused:
        first = here = 2 * next(iter(unused))
        points = []
        while True:
            number, backward = divmod(here, 2)
            del unused[number]
            line = lines[number][::-1] if backward else lines[number]
            points.append(line[:-1])
            here = int(partner[here ^ 1])
            if here == first:
                break
        loops.append(np.concatenate(points))
    return loops


def _partners(ends: Floats, gap: float) -> Integers:
    """The one other end that lies where each end lies."""
    group = _groups(ends, gap)
    counts = np.bincount(group)
    if (wrong := np.flatnonzero(counts[group] != 2)).size:
        place = ends[wrong[0]]
        if counts[group[wrong[0]]] == 1:
            apart = np.hypot(*(ends - place).T)
            apart[wrong[0]] = np.inf
            what = f"the outline is open: a line ends, {1000 * apart.min():.3g} mm from the next end,"
            raise PlacedError.at(what, place, "close it in the drawing, end on end")
        count = counts[group[wrong[0]]]
        raise PlacedError.at(
            f"{count} line ends meet in one point", place, "leave only the outline, each line once"
        )
    order = np.argsort(group, kind="stable")
    partner = np.empty(len(ends), dtype=np.int64)
    partner[order[0::2]], partner[order[1::2]] = order[1::2], order[0::2]
    return partner


def _groups(ends: Floats, gap: float) -> Integers:
    """Number the places where ends lie together."""
    from scipy.sparse import coo_array  # noqa: PLC0415 - needed for drawings only
    from scipy.sparse.csgraph import connected_components  # noqa: PLC0415
    from scipy.spatial import cKDTree  # noqa: PLC0415

    pairs = cKDTree(ends).query_pairs(gap, output_type="ndarray")
    links = coo_array((np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1])), shape=(len(ends), len(ends)))
    return np.asarray(connected_components(links, directed=False)[1], dtype=np.int64)
