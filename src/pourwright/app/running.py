"""Where work is done and what is remembered of it: the doors to processes, cluster and kept results."""

from __future__ import annotations

import functools
from contextlib import AbstractContextManager
from importlib import import_module
from pathlib import Path

from pourwright import compiled_before
from pourwright.foundation.errors import UserError
from pourwright.foundation.progress import SILENT, Progress
from pourwright.pour.store import Map, NoStore, Store
from pourwright.runs import Cache, Cluster, Crew, Many, code_digest, only_one

_NEEDED = ("pourwright.planner.decide", "pourwright.pour", "pourwright.solver")
MOST_PROCESSES = 256


def load() -> None:
    """Load what a plan needs, kernels included."""
    for name in _NEEDED:
        import_module(name)
    import_module("pourwright.solver").warm_up()


def open_crew(processes: int | None = None, cluster: str | None = None) -> AbstractContextManager[Many]:
    """Have a crew for the length of a block; its processes load what they need while the block begins.

    Parameters
    ----------
    processes : int, optional
        How many things are done at once; as many as there are usable processors if left out. With 1
        everything is done in this process.
    cluster : str, optional
        Address of a Dask cluster that does them in the place of processes.

    Returns
    -------
    context manager
        Gives what has ``map``, ``map_as_done`` and ``share``.

    Raises
    ------
    UserError
        Where both are given, or the number is none; on entering, where the cluster cannot be used.
    """
    if cluster is not None:
        if processes is not None:
            raise UserError(
                "--processes and --cluster exclude each other",
                todo="leave out --processes: the cluster has its own",
            )
        return Cluster(cluster)
    if processes is not None and not 1 <= processes <= MOST_PROCESSES:
        raise UserError(f"--processes {processes}", allowed=f"1 to {MOST_PROCESSES}", todo="leave it out")
    # on a first run ever the kernels are compiled once, by who needs them first, not by all at the same time
    return Crew(0 if processes == 1 else processes, warm=load if compiled_before() else None)


def as_map(crew: Many, progress: Progress = SILENT, stage: str = "working") -> Map:
    """Make of a crew the plain `Map` that the planner is given.

    Parameters
    ----------
    crew : Many
        From `open_crew`, inside its block.
    progress : Progress
        Told how many items are done; may raise Cancelled.
    stage : str
        What is being done, in the maker's words.

    Returns
    -------
    Map
        ``map(function, items) -> list``.
    """
    return functools.partial(crew.map, progress=progress, stage=stage)


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
    if no_cache:
        return NoStore()
    # now, while it is still the code that was loaded
    code_digest()
    return Cache()


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


def alone_at(folder: Path) -> AbstractContextManager[None]:
    """Keep a second plan out of a folder while the block runs.

    Parameters
    ----------
    folder : Path
        Of the job, or where its plan goes.

    Returns
    -------
    context manager
        On entering it raises UserError where another process is at it, with which one and since when.
    """
    return only_one(folder, "planning")
