"""A crew: one thing done to many items by several processes, the same results in the same order as by one."""

from __future__ import annotations

import hashlib
import os
import queue
from collections.abc import Callable, Generator, Iterator, Sequence
from types import TracebackType
from typing import Any, Self, TypeVar

from pourwright.foundation.progress import SILENT, Progress
from pourwright.runs.many import in_order, note_item
from pourwright.runs.process import Mail, Process
from pourwright.runs.wire import Packed, Wire, pack_function
from pourwright.runs.worker import call

A = TypeVar("A")
B = TypeVar("B")
T = TypeVar("T")
PATIENCE = 0.2
"""How often whoever follows is asked whether to go on [s]."""


def usable_cores() -> int:
    """Count the processors this process may use.

    Returns
    -------
    int

    Examples
    --------
    >>> usable_cores() >= 1
    True
    """
    allowed = getattr(os, "sched_getaffinity", None)
    return len(allowed(0)) if allowed else os.cpu_count() or 1


class Crew:
    """Worker processes that start with the block, are used by every `map` in it, and end with it.

    With one processor, or one item, the work is done in this process.

    Parameters
    ----------
    processes : int, optional
        How many; 0 does everything in this process. As many as there are usable processors if left out, none
        where there is one only.
    warm : callable, optional
        Importable; done by each worker at once, while there are no items yet: loads what they will need.

    Examples
    --------
    >>> with Crew(0) as crew:
    ...     crew.map(abs, [-1, 2])
    [1, 2]
    """

    def __init__(self, processes: int | None = None, warm: Callable[[], object] | None = None) -> None:
        cores = usable_cores()
        self.processes = (cores if cores > 1 else 0) if processes is None else processes
        self._warm = warm
        self._wire = Wire()
        self._mail: Mail = queue.SimpleQueue()
        self._crew: list[Process] = []
        self._busy = False

    def __enter__(self) -> Self:
        try:
            self._fill_up()
        except BaseException:
            self._dismiss(self._crew)
            raise
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._dismiss(self._crew)

    def share(self, value: T) -> T:
        """Announce a value that many items hold: it is sent to each process once, not with each item.

        Parameters
        ----------
        value : object
            Not changed any more. Wherever this same object stands in an item, a bound argument or a
            result, a token travels in its place.

        Returns
        -------
        object
            The value itself.
        """
        self._wire.share(value)
        return value

    def map(
        self,
        function: Callable[..., B],
        items: Sequence[A],
        *,
        progress: Progress = SILENT,
        stage: str = "working",
    ) -> list[B]:
        """Do one thing to all items.

        Parameters
        ----------
        function : callable
            Importable, or a ``functools.partial`` of such a one; one with an argument ``progress`` is
            given one.
        items : sequence
            What it is done to.
        progress : Progress
            Told how many are done; may raise Cancelled at any time.
        stage : str
            What is being done, in the maker's words.

        Returns
        -------
        list
            Results in the items' order.

        Raises
        ------
        Exception
            What the function raised for the first item that failed; a note names the item.
        UserError
            Where a process has died.
        """
        return in_order(self.map_as_done(function, items, progress=progress, stage=stage), len(items))

    def map_as_done(
        self,
        function: Callable[..., B],
        items: Sequence[A],
        *,
        progress: Progress = SILENT,
        stage: str = "working",
    ) -> Generator[tuple[int, B], None, None]:
        """Do one thing to all items, as `map` does, and give (number, result) as soon as each is there.

        Closing it early ends what is still being worked at.
        """
        if not self.processes or len(items) < 2:
            yield from _alone(function, items, progress, stage)
            return
        if self._busy:
            raise RuntimeError("a crew does one thing at a time: close what was begun before")
        self._fill_up()
        self._busy = True
        try:
            yield from _Round(self._wire, self._mail, self._crew, function, items, progress, stage).run()
        finally:
            self._busy = False

    def _fill_up(self) -> None:
        """Have the whole crew there, also after some were sent away."""
        self._crew[:] = [one for one in self._crew if one.alive]
        while len(self._crew) < self.processes:
            self._crew.append(Process(self._wire, self._mail, self._warm))

    def _dismiss(self, those: list[Process]) -> None:
        for one in those:
            one.kill()
        self._crew.clear()


def _alone(
    function: Callable[..., B], items: Sequence[A], progress: Progress, stage: str
) -> Generator[tuple[int, B], None, None]:
    """Do the items one by one in this process."""
    progress.step(stage, 0, len(items))
    for number, item in enumerate(items):

        def report(share: float, done: int = number) -> None:
            progress.step(stage, done + share, len(items))

        try:
            result = call(function, item, report)
        except Exception as error:
            note_item(error, number, len(items))
            raise
        progress.step(stage, number + 1, len(items))
        yield number, result


class _Round:
    """One `map` under way."""

    def __init__(
        self,
        wire: Wire,
        mail: Mail,
        crew: list[Process],
        function: Callable[..., Any],
        items: Sequence[object],
        progress: Progress,
        stage: str,
    ) -> None:
        self._wire, self._mail, self._crew = wire, mail, crew
        self._items, self._progress, self._stage = items, progress, stage
        self._function: Packed = pack_function(wire, function)
        self._name = hashlib.sha256(self._function.content).hexdigest()
        self._next = 0
        self._finished = 0
        self._shares: dict[int, float] = {}
        self._failures: dict[int, BaseException] = {}

    def run(self) -> Generator[tuple[int, Any], None, None]:
        """Give out items as workers become free, until all are back."""
        try:
            for worker in self._crew:
                self._give(worker)
            while self._open():
                self._tell()
                yield from self._receive()
            self._tell()
            if self._failures:
                raise self._failures[min(self._failures)]
        finally:
            # left early: nobody wants what is still being worked at
            for worker in self._crew:
                if worker.number is not None:
                    worker.kill()

    def _open(self) -> bool:
        """Whether something is still to come that counts: after a failure, the items before it."""
        busy = [worker.number for worker in self._crew if worker.number is not None]
        return any(number < min(self._failures, default=len(self._items)) for number in busy)

    def _tell(self) -> None:
        self._progress.step(self._stage, self._finished + sum(self._shares.values()), len(self._items))

    def _give(self, worker: Process) -> None:
        worker.number = None
        if self._next < len(self._items) and not self._failures:
            item = self._wire.pack(self._items[self._next])
            worker.order(self._next, self._name, self._function, item)
            self._next += 1

    def _receive(self) -> Iterator[tuple[int, Any]]:
        try:
            worker, message = self._mail.get(timeout=PATIENCE)
        except queue.Empty:
            return
        # what a worker that was sent away has still said is of no interest
        if worker not in self._crew:
            return
        if message is None:
            raise worker.death()
        kind, number, *details = message
        if kind == "share":
            self._shares[number] = details[0]
        elif kind == "done":
            yield from self._done(worker, number, details[0])
        else:
            self._failed(worker, number, *details)

    def _done(self, worker: Process, number: int, content: bytes) -> Iterator[tuple[int, Any]]:
        result = self._wire.unpack(content)
        self._finished += 1
        self._shares.pop(number, None)
        self._give(worker)
        yield number, result

    def _failed(self, worker: Process, number: int | None, content: bytes, trace: str) -> None:
        error = self._wire.unpack(content)
        if number is None:
            error.add_note(trace)
            raise error
        note_item(error, number, len(self._items), trace)
        self._failures[number] = error
        self._give(worker)
