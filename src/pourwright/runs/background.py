"""One long thing done behind the page, in processes of its own: followed, and ended as a whole."""

from __future__ import annotations

import contextlib
import functools
import subprocess
import threading
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from pourwright.foundation.errors import Cancelled
from pourwright.foundation.progress import SILENT, Progress
from pourwright.runs.group import end_group
from pourwright.runs.spawn import death, no_process, spawn
from pourwright.runs.wire import Wire, pack_function, read_message, write_message

PATIENCE = 1.5
"""How long the system may take to end processes [s]."""
_TODO = "close other programs, then begin again"
_START = "from pourwright.runs.head import main; main()"


@dataclass(frozen=True)
class Outcome:
    """What came of it.

    Parameters
    ----------
    answer : object
        Of the function; None where there is an error.
    error : exception or None
        What it raised, what its end was, or Cancelled.
    """

    answer: Any = None
    error: BaseException | None = None


class Background:
    """A function at work in a process group of its own, which ends with this object's process.

    Parameters
    ----------
    function : callable
        Importable; one with an argument ``progress`` is given one.
    *arguments : object
        What it is given; anything that can be pickled.
    progress : Progress
        Told how far it is, by a thread of this object.
    ended : callable, optional
        Given the outcome by the same thread, after the last process is gone.

    Raises
    ------
    TypeError
        For a function that another process could not import.

    Examples
    --------
    >>> import operator
    >>> Background(operator.add, 2, 3).wait().answer
    5
    """

    def __init__(
        self,
        function: Callable[..., object],
        *arguments: object,
        progress: Progress = SILENT,
        ended: Callable[[Outcome], None] = lambda _: None,
    ) -> None:
        self._order = pack_function(Wire(), functools.partial(function, *arguments)).content
        self._progress, self._ended = progress, ended
        self._lock = threading.Lock()
        self._process: subprocess.Popen[bytes] | None = None
        self._cancelled = False
        self._outcome = Outcome()
        # the thread that starts the process stays as long as it does: the system ends it with that thread
        self._keeper = threading.Thread(target=self._keep, name="keeper of a run", daemon=True)
        self._keeper.start()

    @property
    def process_id(self) -> int | None:
        """Of the head of its group; None before it has one."""
        return None if self._process is None else self._process.pid

    def wait(self, seconds: float | None = None) -> Outcome:
        """Wait until it has ended.

        Parameters
        ----------
        seconds : float, optional
            No longer than this [s].

        Returns
        -------
        Outcome

        Raises
        ------
        TimeoutError
            Where it goes on.
        """
        self._keeper.join(seconds)
        if self._keeper.is_alive():
            raise TimeoutError(seconds)
        return self._outcome

    def cancel(self) -> Outcome:
        """End all its processes, whatever they are at, and wait until they are gone.

        Returns
        -------
        Outcome
            Cancelled, or the answer where it has come before.
        """
        with self._lock:
            self._cancelled = True
            if self._process is not None and self._process.returncode is None:
                end_group(self._process.pid, 0.0)
                self._process.kill()
        return self.wait()

    def _keep(self) -> None:
        try:
            self._outcome = self._followed()
        except Exception as error:  # noqa: BLE001 - whoever waits must hear of it
            self._outcome = Outcome(error=error)
        self._ended(self._outcome)

    def _followed(self) -> Outcome:
        """Start, follow and bury it."""
        with self._lock:
            if self._cancelled:
                return Outcome(error=Cancelled())
            try:
                self._process = process = spawn(_START)
            except OSError as error:
                return Outcome(error=no_process(error, _TODO))
        answer: tuple[Any, ...] | None = None
        try:
            with contextlib.suppress(OSError):
                write_message(process.stdin, (self._order,))  # type: ignore[arg-type]
            answer = self._listen(process)
        finally:
            _bury(process)
        if answer is None:
            return Outcome(error=Cancelled() if self._cancelled else death(process.returncode, _TODO))
        return _outcome(*answer)

    def _listen(self, process: subprocess.Popen[bytes]) -> tuple[Any, ...] | None:
        """Pass on its steps until the answer is there; None where none comes."""
        assert process.stdout is not None
        while (message := read_message(process.stdout)) is not None and message[0] == "step":
            self._progress.step(*message[1:])
        return message


def _bury(process: subprocess.Popen[bytes]) -> None:
    """Leave nothing of it: no process of its group, no open line."""
    # before its head is asked for: until then no other group can have its number
    end_group(process.pid, PATIENCE)
    process.kill()
    process.wait()
    for stream in (process.stdin, process.stdout):
        if stream is not None:
            with contextlib.suppress(OSError):
                stream.close()


def _outcome(kind: str, content: bytes, trace: str = "") -> Outcome:
    value = Wire().unpack(content)
    if kind == "done":
        return Outcome(answer=value)
    value.add_note(trace)
    return Outcome(error=value)
