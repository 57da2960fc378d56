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


FINE = 3.0
"""Steps in which a label looks for its place [pt]."""


def _steps(low: float, high: float, wish: float) -> list[float]:
    """Places along one line, the wished one among them where it lies inside."""
    count = max(int((high - low) / FINE), 0)
    steps = [low + FINE * i for i in range(count + 1)]
    return [*steps, wish] if low <= wish <= high else steps


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

    def nearest(self, point: tuple[float, float], size: tuple[float, float], bounds: Frame) -> Frame:
        """Find the free box nearest to a point, and take it.

        Parameters
        ----------
        point : (x, y)
            Where the label would like its middle [pt].
        size : tuple of float
            Width and height of the label [pt].
        bounds : tuple of float
            Left, top, right, bottom that the label stays within [pt].

        Returns
        -------
        tuple of float
            The box it took; at the point itself where everything is taken.
        """
        (x, y), (wide, high) = point, size
        frame = self.found(point, size, bounds) or (x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)
        self._taken.append(frame)
        return frame

    def found(self, point: tuple[float, float], size: tuple[float, float], bounds: Frame) -> Frame | None:
        """Find the free box nearest to a point, and leave it free.

        Parameters
        ----------
        point : (x, y)
            Where the label would like its middle [pt].
        size : tuple of float
            Width and height of the label [pt].
        bounds : tuple of float
            Left, top, right, bottom that the label stays within [pt].

        Returns
        -------
        tuple of float or None
            The box; None where everything is taken.
        """
        (x, y), (wide, high) = point, size
        lefts = _steps(bounds[0], bounds[2] - wide, x - wide / 2)
        tops = _steps(bounds[1], bounds[3] - high, y - high / 2)
        boxes = [(left, top, left + wide, top + high) for left in lefts for top in tops]
        # a label to the side of a point is read more easily than one above it
        boxes.sort(key=lambda box: abs(box[0] + wide / 2 - x) + 1.5 * abs(box[1] + high / 2 - y))
        return next((box for box in boxes if self.free(box)), None)

    def free(self, frame: Frame) -> bool:
        """Whether nothing taken lies under a box (left, top, right, bottom) [pt]."""
        left, top, right, bottom = frame
        return all(right <= a or c <= left or bottom <= b or d <= top for a, b, c, d in self._taken)
