"""The planner's hands: its heat runs done by a crew, each kept so that no later plan does it again."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from types import MappingProxyType
from typing import TypeVar

from pourwright.app.running import open_cache, open_crew, trouble_of
from pourwright.foundation.progress import SILENT, Progress
from pourwright.pour.store import Store
from pourwright.runs import Many, run_study

A = TypeVar("A")
B = TypeVar("B")
WORDS: Mapping[str, str] = MappingProxyType(
    {
        "peak_of": "what makes it run hotter",
        "search": "searching for the fewest pours",
        "perform": "heat and cure on finer grids",
        "live": "how sure it is: pouring it with other resins, voids and shops",
    }
)
"""What each kind of work is called, by its function."""


@dataclass(frozen=True)
class Hands:
    """Does one thing to many items; `pourwright.pour.store.Map`.

    Parameters
    ----------
    crew : Crew or Cluster
        Does it.
    store : Store
        Keeps it.
    progress : Progress
        Told how far it is; may raise Cancelled.
    """

    crew: Many
    store: Store
    progress: Progress = SILENT

    def __call__(self, function: Callable[[A], B], items: Sequence[A], /) -> list[B]:
        """Do it, or read what was kept."""
        name = getattr(function, "__name__", "")
        return run_study(
            function, items, self.crew, self.store, progress=self.progress, stage=WORDS.get(name, "working")
        )


@dataclass(frozen=True)
class Work:
    """How work is done.

    Parameters
    ----------
    processes : int or None
        At once; None for as many as there are usable processors.
    cluster : str or None
        Address of a cluster that does it instead.
    no_cache : bool
        Neither use nor keep results.
    """

    processes: int | None = None
    cluster: str | None = None
    no_cache: bool = False


@contextmanager
def open_hands(work: Work, progress: Progress = SILENT) -> Iterator[Hands]:
    """Have hands for the length of a block.

    Parameters
    ----------
    work : Work
        How it is done.
    progress : Progress
        Told how far it is; may raise Cancelled.

    Yields
    ------
    Hands
    """
    store = open_cache(no_cache=work.no_cache)
    with open_crew(work.processes, work.cluster) as crew:
        yield Hands(crew, store, progress)
    trouble = trouble_of(store)
    if trouble:
        progress.step(f"nothing was kept for the next plan: {trouble}", 1, 1)
