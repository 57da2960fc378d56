"""What a worker process does: take an item, do it, tell how far it is and what came of it."""

from __future__ import annotations

import inspect
import queue
import threading
import traceback
from collections.abc import Callable
from typing import IO, Any

from pourwright.runs.group import leave
from pourwright.runs.spawn import lines_taken, stand_back
from pourwright.runs.wire import Wire, read_message, write_message

FINEST_SHARE = 0.01
"""An item's progress is told when it has grown by so much [-]."""
Report = Callable[[float], None]


def takes_progress(function: Callable[..., object]) -> bool:
    """Say whether a function wants to tell how far it is: whether it has an argument ``progress``.

    Parameters
    ----------
    function : callable
        The function.

    Returns
    -------
    bool
    """
    try:
        return "progress" in inspect.signature(function).parameters
    except (TypeError, ValueError):  # some built-in functions say nothing about themselves
        return False


class ShareTold:
    """A progress that tells the share done of one item, whatever its stages are called.

    Parameters
    ----------
    report : callable
        Given the share [-].
    """

    def __init__(self, report: Report) -> None:
        self._report = report
        self._told = 0.0

    def step(self, stage: str, done: float, total: float) -> None:  # noqa: ARG002 - the protocol's names
        """Tell, where the share has grown."""
        share = min(1.0, done / total) if total > 0.0 else 0.0
        if share >= self._told + FINEST_SHARE:
            self._told = share
            self._report(share)


def call(function: Callable[..., Any], item: object, report: Report) -> Any:
    """Do one item.

    Parameters
    ----------
    function : callable
        What is done; one with an argument ``progress`` is given one.
    item : object
        What it is done to.
    report : callable
        Told the share of the item that is done [-].

    Returns
    -------
    object
        The function's answer.
    """
    if takes_progress(function):
        return function(item, progress=ShareTold(report))
    return function(item)


class Worker:
    """Serves one line until its other end closes.

    Parameters
    ----------
    source, sink : binary file
        From and to the process that has started this one.
    """

    def __init__(self, source: IO[bytes], sink: IO[bytes]) -> None:
        self._source, self._sink = source, sink
        self._wire = Wire()
        self._functions: dict[str, Any] = {}
        self._orders: queue.SimpleQueue[tuple[Any, ...]] = queue.SimpleQueue()
        self._doing: dict[str, Callable[..., None]] = {
            "warm": self._warm,
            "shared": self._wire.receive,
            "function": self._learn,
            "item": self._item,
        }

    def serve(self) -> None:
        """Do what is asked, in order, for ever."""
        threading.Thread(target=self._listen, daemon=True).start()
        while True:
            what, *details = self._orders.get()
            try:
                self._doing[what](*details)
            except BaseException as error:  # noqa: BLE001 - raised again where the work was ordered
                self._send("failed", _number(what, details), *error_as_bytes(error))

    def _listen(self) -> None:
        """Take orders while another is being done; without the other end there is nobody to work for."""
        while True:
            message = read_message(self._source)
            if message is None:
                leave()
            else:
                self._orders.put(message)

    def _send(self, *message: object) -> None:
        try:
            write_message(self._sink, message)
        except OSError:
            leave()

    def _warm(self, content: bytes) -> None:
        self._wire.unpack(content)()

    def _learn(self, name: str, content: bytes) -> None:
        self._functions[name] = self._wire.unpack(content)

    def _item(self, number: int, name: str, content: bytes) -> None:
        item = self._wire.unpack(content)
        answer = call(self._functions[name], item, lambda share: self._send("share", number, share))
        self._send("done", number, self._wire.pack(answer).content)


def _number(what: str, details: list[Any]) -> int | None:
    return details[0] if what == "item" else None


def error_as_bytes(error: BaseException) -> tuple[bytes, str]:
    """Turn an error into bytes that can be read back anywhere, and its trace into text.

    Parameters
    ----------
    error : exception
        Whatever was raised; one that cannot travel is told in words.

    Returns
    -------
    tuple of bytes and str
    """
    trace = "".join(traceback.format_exception(error))
    wire = Wire()
    try:
        content = wire.pack(error).content
        wire.unpack(content)
    except Exception:  # noqa: BLE001 - any error may hold what cannot travel
        content = wire.pack(RuntimeError(f"{type(error).__name__}: {error}")).content
    return content, trace


def main() -> None:
    """Start serving on standard input and output, which prints no longer reach."""
    stand_back()
    source, sink = lines_taken()
    with source as orders, sink as answers:
        Worker(orders, answers).serve()
