"""Labels that make room for each other."""

from collections.abc import Sequence


def spread(wanted: Sequence[float], sizes: Sequence[float], low: float, high: float) -> list[float]:
    """Push labels apart along one line, each as little as the others allow.

    Least squares of the shifts under the order of the wanted places: the pooled averages
    of isotonic regression.

    Parameters
    ----------
    wanted : sequence of float
        Wanted centers [pt], in rising order.
    sizes : sequence of float
        Room of each label [pt].
    low, high : float
        Ends of the line [pt]; when the labels need more, they run over ``high``.

    Returns
    -------
    list of float
        Centers that do not overlap, same order.

    Examples
    --------
    >>> spread([10.0, 11.0, 60.0], [10.0, 10.0, 10.0], 0.0, 100.0)
    [5.5, 15.5, 60.0]
    """
    offsets = _offsets(sizes)
    pools: list[tuple[float, int]] = []
    for place, offset in zip(wanted, offsets, strict=True):
        pools.append((place - offset, 1))
        # two pools out of order want the same place: they share their mean
        while len(pools) > 1 and pools[-2][0] > pools[-1][0]:
            pools[-2:] = [_pooled(*pools[-2:])]
    ceiling = high - offsets[-1] - sizes[-1] / 2 if sizes else high
    floor = low + (sizes[0] / 2 if sizes else 0.0)
    free = [min(max(mean, floor), max(ceiling, floor)) for mean, count in pools for _ in range(count)]
    return [place + offset for place, offset in zip(free, offsets, strict=True)]


def _offsets(sizes: Sequence[float]) -> list[float]:
    offsets: list[float] = []
    for i, size in enumerate(sizes):
        offsets.append(offsets[-1] + (sizes[i - 1] + size) / 2 if i else 0.0)
    return offsets


def _pooled(one: tuple[float, int], other: tuple[float, int]) -> tuple[float, int]:
    count = one[1] + other[1]
    return (one[0] * one[1] + other[0] * other[1]) / count, count


Frame = tuple[float, float, float, float]


class Places:
    """Boxes already taken on a drawing; a new label moves up until it is free."""

    def __init__(self) -> None:
        self._taken: list[Frame] = []

    def take(self, frame: Frame) -> None:
        """Mark a box (left, top, right, bottom) [pt] as taken."""
        self._taken.append(frame)

    def settle(self, frame: Frame, step: float, top: float) -> Frame:
        """Move a box up by steps until it is free, and take it.

        Parameters
        ----------
        frame : tuple of float
            Left, top, right, bottom [pt].
        step : float
            How far one try goes [pt].
        top : float
            No label goes above this line [pt]; then it stays at the first wish.

        Returns
        -------
        tuple of float
            The box it took.
        """
        left, upper, right, lower = frame
        lift = 0.0
        while upper - lift >= top and not self.free((left, upper - lift, right, lower - lift)):
            lift += step
        lift = lift if upper - lift >= top else 0.0
        self._taken.append((left, upper - lift, right, lower - lift))
        return self._taken[-1]

    def free(self, frame: Frame) -> bool:
        """Whether nothing taken lies under a box (left, top, right, bottom) [pt]."""
        left, top, right, bottom = frame
        return all(right <= a or c <= left or bottom <= b or d <= top for a, b, c, d in self._taken)
