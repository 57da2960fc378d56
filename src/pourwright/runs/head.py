"""What the head of a run behind the page does: one thing, telling how far it is."""

from __future__ import annotations

import time
from typing import IO

from pourwright.runs.group import found_a_run, guard, leave
from pourwright.runs.spawn import lines_taken, stand_back
from pourwright.runs.wire import Wire, read_message, write_message
from pourwright.runs.worker import error_as_bytes, takes_progress

RESPITE = 0.1
"""Progress within a stage is told so often at most [s]."""


class Steps:
    """A progress that goes through the line.

    Parameters
    ----------
    sink : binary file
        To the process that has started this one.
    """

    def __init__(self, sink: IO[bytes]) -> None:
        self._sink = sink
        self._stage, self._told = "", 0.0

    def step(self, stage: str, done: float, total: float) -> None:
        """Tell, where the stage is another or the last word is old enough."""
        now = time.monotonic()
        if stage != self._stage or done >= total or now >= self._told + RESPITE:
            self._stage, self._told = stage, now
            write_message(self._sink, ("step", stage, float(done), float(total)))


def _done(source: IO[bytes], sink: IO[bytes]) -> tuple[object, ...]:
    message = read_message(source)
    if message is None:
        leave()
        raise EOFError
    guard(source, sink)
    try:
        function = Wire().unpack(message[0])
        following = {"progress": Steps(sink)} if takes_progress(function) else {}
        return "done", Wire().pack(function(**following)).content
    except BaseException as error:  # noqa: BLE001 - raised again where the work was ordered
        return "failed", *error_as_bytes(error)


def main() -> None:
    """Do what standard input says."""
    found_a_run()
    stand_back()
    source, sink = lines_taken()
    try:
        write_message(sink, _done(source, sink))
    except OSError:
        leave()
