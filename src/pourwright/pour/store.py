"""What work is handed through: a store that remembers results, and a way to do many things."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Protocol, TypeVar

A = TypeVar("A")
B = TypeVar("B")


class Store(Protocol):
    """Remembers results by the fingerprint of what they were made from."""

    def get(self, key: str) -> object | None:
        """Give back what was put under a key; None where there is nothing.

        Parameters
        ----------
        key : str
            64 hexadecimal digits.
        """

    def put(self, key: str, value: object) -> None:
        """Remember a value; never fails for want of room.

        Parameters
        ----------
        key : str
            64 hexadecimal digits.
        value : object
            Frozen dataclasses, arrays and plain values; not None.
        """


class NoStore:
    """Remembers nothing."""

    def get(self, key: str) -> object | None:  # noqa: ARG002 - the protocol's names
        """Find nothing."""
        return None

    def put(self, key: str, value: object) -> None:
        """Let it go."""


class Map(Protocol):
    """Does one thing to many items and gives the results in the items' order."""

    def __call__(self, function: Callable[[A], B], items: Sequence[A], /) -> list[B]:
        """Do it.

        Parameters
        ----------
        function : callable
            Importable: defined at the top of a module, or a ``functools.partial`` of such a one.
        items : sequence
            What it is done to.
        """


def in_turn(function: Callable[[A], B], items: Sequence[A], /) -> list[B]:
    """Do one thing to many items, one after the other: the `Map` that starts no process.

    Parameters
    ----------
    function : callable
        What is done.
    items : sequence
        What it is done to.

    Returns
    -------
    list
        Results in order.

    Examples
    --------
    >>> in_turn(abs, [-1, 2])
    [1, 2]
    """
    return [function(item) for item in items]
