"""Something that is made when it is first asked for, once however many ask."""

from __future__ import annotations

from collections.abc import Callable
from threading import Lock
from typing import Generic, TypeVar

T = TypeVar("T")


class Once(Generic[T]):
    """Makes a thing at most once.

    Parameters
    ----------
    make : callable
        Makes it; may be slow.

    Examples
    --------
    >>> numbers = iter([1, 2])
    >>> one = Once(lambda: next(numbers))
    >>> one(), one()
    (1, 1)
    """

    def __init__(self, make: Callable[[], T]) -> None:
        self._make = make
        self._made: list[T] = []
        self._lock = Lock()

    def __call__(self) -> T:
        """Give it."""
        with self._lock:
            if not self._made:
                self._made.append(self._make())
            return self._made[0]
