"""What does one thing to many items, wherever that is done."""

from __future__ import annotations

from collections.abc import Callable, Generator, Sequence
from typing import Any, Protocol, TypeVar

from pourwright.foundation.progress import Progress

A = TypeVar("A")
B = TypeVar("B")
T = TypeVar("T")


class Many(Protocol):
    """A crew of processes, or a cluster."""

    def share(self, value: T) -> T:
        """Announce a value that many items hold, so that it is sent once."""

    def map(
        self, function: Callable[..., B], items: Sequence[A], *, progress: Progress = ..., stage: str = ...
    ) -> list[B]:
        """Give the results in the items' order."""

    def map_as_done(
        self, function: Callable[..., B], items: Sequence[A], *, progress: Progress = ..., stage: str = ...
    ) -> Generator[tuple[int, B], None, None]:
        """Give (number, result) as soon as each is there."""


def note_item(error: BaseException, number: int, total: int, trace: str = "") -> None:
    """Note on an error at which item it happened.

    Parameters
    ----------
    error : exception
        What was raised.
    number, total : int
        Of the item, from 0; of how many.
    trace : str
        Where in another process.
    """
    error.add_note(f"at item {number + 1} of {total}" + (f", in another process:\n{trace}" if trace else ""))


def in_order(done: Generator[tuple[int, Any], None, None], total: int) -> list[Any]:
    """Put results in the items' order.

    Parameters
    ----------
    done : generator of (number, result)
        Closed in any case.
    total : int
        How many items there are.

    Returns
    -------
    list
    """
    try:
        results = dict(done)
    finally:
        done.close()
    return [results[number] for number in range(total)]
