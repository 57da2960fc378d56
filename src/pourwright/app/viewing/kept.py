"""Answers of the view that take a moment to make: kept under the fingerprint of what they came from."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable
from threading import Lock, RLock
from typing import Generic, TypeVar, cast
from weakref import WeakValueDictionary

from pourwright.app.running import open_cache

T = TypeVar("T")


class _Making:
    """Held by whoever makes one thing, so that nobody makes it twice; others are not kept waiting."""

    def __init__(self) -> None:
        self.lock = RLock()


_GUARD = Lock()
_UNDERWAY: WeakValueDictionary[str, _Making] = WeakValueDictionary()


def _making(key: str) -> _Making:
    with _GUARD:
        return _UNDERWAY.setdefault(key, _Making())


def kept_or_made(key: str, make: Callable[[], T]) -> T:
    """Read what was kept under a key, else make and keep it.

    Parameters
    ----------
    key : str
        A fingerprint of everything it comes from.
    make : callable
        Makes it; two requests do not do the same work.

    Returns
    -------
    object
        Plain values, as `pourwright.runs.Cache` keeps them.
    """
    store = open_cache()
    found = store.get(key)
    if found is None:
        making = _making(key)
        with making.lock:
            found = store.get(key)
            if found is None:
                found = make()
                store.put(key, found)
    return cast("T", found)


class Latest(Generic[T]):
    """The last few things made in this process, which are too large or too intricate to be kept on disk.

    Parameters
    ----------
    most : int
        How many.

    Examples
    --------
    >>> latest = Latest[int](1)
    >>> latest.get("a", lambda: 1), latest.get("a", lambda: 2), latest.get("b", lambda: 3)
    (1, 1, 3)
    >>> latest.get("a", lambda: 4)
    4
    """

    def __init__(self, most: int) -> None:
        self._most = most
        self._held: OrderedDict[str, T] = OrderedDict()

    def get(self, key: str, make: Callable[[], T]) -> T:
        """Give what is held under a key, else make it and hold it instead of the one unused for longest."""
        making = _making(f"{id(self)} {key}")
        with making.lock:
            with _GUARD:
                if key in self._held:
                    self._held.move_to_end(key)
                    return self._held[key]
            made = make()
            with _GUARD:
                self._held[key] = made
                while len(self._held) > self._most:
                    self._held.popitem(last=False)
            return made
