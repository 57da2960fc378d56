"""Where work is done and what is remembered of it: the doors to processes, cluster and kept results."""

from __future__ import annotations

from contextlib import AbstractContextManager
from importlib import import_module

from pourwright import compiled_before
from pourwright.pour.store import NoStore, Store
from pourwright.runs import Cache, Crew

_NEEDED = ("pourwright.planner.decide", "pourwright.pour", "pourwright.solver")


def load() -> None:
    """Load what a plan needs, kernels included."""
    for name in _NEEDED:
        import_module(name)
    import_module("pourwright.solver").warm_up()


def open_crew(processes: int | None = None) -> AbstractContextManager[Crew]:
    """Have a crew for the length of a block; its processes load what they need while the block begins.

    Parameters
    ----------
    processes : int, optional
        How many things are done at once; as many as there are usable processors if left out. With 1
        everything is done in this process.

    Returns
    -------
    context manager
        Gives what has ``map``, ``map_as_done`` and ``share``.
    """
    # on a first run ever the kernels are compiled once, by who needs them first, not by all at the same time
    return Crew(0 if processes == 1 else processes, warm=load if compiled_before() else None)


def open_cache(*, no_cache: bool = False) -> Store:
    """Have a store of results.

    Parameters
    ----------
    no_cache : bool
        Neither use nor keep any.

    Returns
    -------
    Store
        The user's own, or one that remembers nothing.
    """
    return NoStore() if no_cache else Cache()


def trouble_of(store: Store) -> str:
    """Say why a store could keep nothing, for one word to whoever watches.

    Parameters
    ----------
    store : Store
        From `open_cache`, after the work.

    Returns
    -------
    str
        Empty where there was no trouble.
    """
    return store.trouble if isinstance(store, Cache) else ""
