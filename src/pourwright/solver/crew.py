"""Split independent work over threads; the result does not depend on how many there are."""

from __future__ import annotations

import os
from collections import deque
from collections.abc import Callable
from functools import lru_cache
from itertools import pairwise
from queue import SimpleQueue
from threading import Thread, get_ident

SMALL = 60_000
PARTS_EACH = 4
"""Parts per thread: on a busy machine a thread that is held up leaves its parts to the others."""
Work = Callable[[int, int], object]


class _Helpers:
    """Threads that wait for a job, do it, and report that it is done or how it failed."""

    def __init__(self, count: int) -> None:
        self.count = count
        self._jobs: SimpleQueue[Callable[[], None]] = SimpleQueue()
        self._reports: SimpleQueue[BaseException | None] = SimpleQueue()
        for number in range(count):
            Thread(target=self._serve, name=f"solver-{number}", daemon=True).start()

    def _serve(self) -> None:
        while True:
            job = self._jobs.get()
            try:
                job()
            except BaseException as failure:  # noqa: BLE001 - raised again in the thread that waits
                self._reports.put(failure)
            else:
                self._reports.put(None)

    def start(self, job: Callable[[], None]) -> None:
        """Let every helper do the job."""
        for _ in range(self.count):
            self._jobs.put(job)

    def wait(self) -> None:
        """Wait for all of them, then raise what one of them raised."""
        reports = [self._reports.get() for _ in range(self.count)]
        for failure in reports:
            if failure is not None:
                raise failure


@lru_cache(maxsize=8)
def _helpers(count: int, _process: int, _caller: int) -> _Helpers:
    """Keep helpers for the thread that calls; a forked process starts its own."""
    return _Helpers(count)


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
        """Do all of the work in parts, each taken by whichever thread is free; this thread helps."""
        if self.threads <= 1 or count <= 1:
            work(0, count)
            return
        parts = min(count, self.threads * PARTS_EACH)
        marks = [count * n // parts for n in range(parts + 1)]
        waiting = deque(pairwise(marks))

        def help_out() -> None:
            while waiting:
                try:
                    low, high = waiting.popleft()
                except IndexError:  # another thread took the last part just now
                    return
                work(low, high)

        helpers = _helpers(self.threads - 1, os.getpid(), get_ident())
        helpers.start(help_out)
        try:
            help_out()
        finally:
            helpers.wait()
