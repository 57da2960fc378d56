"""Split independent work over threads; the result does not depend on how many there are."""

from __future__ import annotations

import os
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from functools import lru_cache

SMALL = 60_000
Work = Callable[[int, int], object]


@lru_cache(maxsize=4)
def _pool(threads: int) -> ThreadPoolExecutor:
    return ThreadPoolExecutor(threads, thread_name_prefix="solver")


def threads_wanted() -> int:
    """Count the threads to use: ``NUMBA_NUM_THREADS`` if set, else the processors this process may use.

    Returns
    -------
    int

    Examples
    --------
    >>> threads_wanted() >= 1
    True
    """
    said = os.environ.get("NUMBA_NUM_THREADS", "")
    if said.isdigit() and int(said) > 0:
        return int(said)
    allowed = getattr(os, "sched_getaffinity", None)
    return len(allowed(0)) if allowed else os.cpu_count() or 1


class Crew:
    """Runs `work(low, high)` over a range, in one piece or one per thread.

    Parameters
    ----------
    cells : int
        Size of the grid; a small one is not worth a second thread.
    threads : int
        How many at most; as `threads_wanted` says if left out.
    """

    def __init__(self, cells: int, threads: int | None = None) -> None:
        wanted = threads_wanted() if threads is None else threads
        self.threads = 1 if cells < SMALL else max(1, wanted)

    def share(self, count: int, work: Work) -> None:
        """Do all of the work; the first part in this thread."""
        parts = min(self.threads, count)
        if parts <= 1:
            work(0, count)
            return
        marks = [count * n // parts for n in range(parts + 1)]
        pool = _pool(self.threads - 1)
        others = [pool.submit(work, marks[n], marks[n + 1]) for n in range(1, parts)]
        work(0, marks[1])
        for other in others:
            other.result()
