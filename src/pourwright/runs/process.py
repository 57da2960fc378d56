"""One worker process as the one that started it sees it."""

from __future__ import annotations

import contextlib
import queue
import threading
from collections.abc import Callable
from typing import IO, Any

from pourwright.foundation.errors import UserError
from pourwright.runs.group import end
from pourwright.runs.spawn import death, no_process, spawn
from pourwright.runs.wire import Packed, Wire, read_message, write_message

_TODO = "close other programs, or try again with --processes 1"
_START = "from pourwright.runs.worker import main; main()"
Mail = queue.SimpleQueue[tuple["Process", tuple[Any, ...] | None]]


class Process:
    """A worker process in a group of its own, or in that of the run behind the page that it belongs to.

    Parameters
    ----------
    wire : Wire
        Knows what is shared.
    mail : queue
        Where this process's messages go, each with the process; None once it has ended.
    warm : callable, optional
        Done first, before any item is there.
    """

    def __init__(self, wire: Wire, mail: Mail, warm: Callable[[], object] | None) -> None:
        self._wire = wire
        self._known: set[str] = set()
        self.number: int | None = None
        """Of the item it is at."""
        try:
            self._popen = spawn(_START)
        except OSError as error:
            raise no_process(error, _TODO) from error
        assert self._popen.stdin is not None
        self._orders: IO[bytes] = self._popen.stdin
        threading.Thread(target=self._listen, args=(self._popen.stdout, mail), daemon=True).start()
        if warm is not None:
            self._send("warm", wire.pack(warm).content)

    def _listen(self, source: IO[bytes], mail: Mail) -> None:
        with source:
            while (message := read_message(source)) is not None:
                mail.put((self, message))
        mail.put((self, None))

    def _send(self, *message: object) -> None:
        # a process that has died says so by the end of its messages
        with contextlib.suppress(OSError):
            write_message(self._orders, message)

    def order(self, number: int, name: str, function: Packed, item: Packed) -> None:
        """Give it an item, after whatever it does not know yet.

        Parameters
        ----------
        number : int
            Of the item.
        name : str
            Of the function, for this and later items.
        function, item : Packed
            What is done to what.
        """
        # first of all: from here on it is not to be trusted with another item unless it ends this one
        self.number = number
        for token in self._wire.in_order((*function.needs, *item.needs)):
            if token not in self._known:
                self._known.add(token)
                self._send("shared", token, self._wire.packed(token).content)
        if name not in self._known:
            self._known.add(name)
            self._send("function", name, function.content)
        self._send("item", number, name, item.content)

    @property
    def alive(self) -> bool:
        """Whether it still runs."""
        return self._popen.poll() is None

    @property
    def process_id(self) -> int:
        """Of the operating system."""
        return self._popen.pid

    def death(self) -> UserError:
        """Say why it has ended, and what to do."""
        return death(self._popen.wait(), _TODO)

    def kill(self) -> None:
        """End it at once, with whatever it has started."""
        end(self._popen)
        self._popen.wait()
        with contextlib.suppress(OSError):
            self._orders.close()
