"""The same work over many computers: a Dask cluster, given its address."""

from __future__ import annotations

import contextlib
import functools
import logging
import queue
import re
import socket
import threading
from collections.abc import Callable, Generator, Iterator, Sequence
from importlib import import_module
from types import TracebackType
from typing import Any, NoReturn, Self, TypeVar

from pourwright.foundation.errors import UserError
from pourwright.foundation.progress import SILENT, Progress
from pourwright.runs.fingerprint import code_digest
from pourwright.runs.many import in_order, note_item
from pourwright.runs.wire import Wire, pack_function
from pourwright.runs.worker import call, error_as_bytes

A = TypeVar("A")
B = TypeVar("B")
T = TypeVar("T")
CONNECT_WITHIN = 10.0
"""[s]"""
PATIENCE = 0.2
"""How often whoever follows is asked whether to go on [s]."""
_ADDRESS = re.compile(r"(?:(?:tcp|tls)://)?(?P<host>\[[0-9a-fA-F:.]+\]|[^\s/:\[\]]+):(?P<port>\d{1,5})")
AHEAD = 2
"""Items that wait at the cluster for each of its threads, so that none is ever idle."""
Shared = tuple[tuple[str, bytes], ...]
Answer = tuple[str, bytes, str]


class Cluster:
    """Work at a Dask cluster for the length of a block.

    Parameters
    ----------
    address : str
        Of its scheduler, as in ``tcp://192.168.1.20:8786``.
    within : float
        How long to try to reach it [s].

    Raises
    ------
    UserError
        On entering: where the extra is not installed, nobody answers, no worker is there, or the workers have
        another version of this package.
    """

    def __init__(self, address: str, within: float = CONNECT_WITHIN) -> None:
        self.address = address
        self._within = within
        self._wire = Wire()
        self._client: Any = None
        self._sent: dict[str, Any] = {}

    def __enter__(self) -> Self:
        self._client = _connected(self.address, self._within)
        try:
            _refuse_other_code(self._client, self.address)
        except BaseException:
            self.__exit__(None, None, None)
            raise
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        client, self._client = self._client, None
        self._sent.clear()
        if client is not None:
            with contextlib.suppress(Exception):
                client.close(timeout=PATIENCE)

    def share(self, value: T) -> T:
        """Announce a value that many items hold: it is sent to each worker once, not with each item."""
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
        """Do one thing to all items, as a `Crew` does."""
        return in_order(self.map_as_done(function, items, progress=progress, stage=stage), len(items))

    def map_as_done(
        self,
        function: Callable[..., B],
        items: Sequence[A],
        *,
        progress: Progress = SILENT,
        stage: str = "working",
    ) -> Generator[tuple[int, B], None, None]:
        """Give (number, result) as soon as each is there; closing it early takes back what has not begun."""
        if self._client is None:
            raise RuntimeError("a cluster is used inside its block")
        yield from _Round(self._client, self._wire, self._sent, function, items, progress, stage).run()


def _connected(address: str, within: float) -> Any:
    if not (parts := _ADDRESS.fullmatch(address)):
        raise UserError(
            f"'{address}' is no address of a cluster",
            allowed="what its scheduler prints, as in tcp://192.168.1.20:8786",
            todo="start 'dask scheduler' on one computer and copy its address",
        )
    try:
        distributed: Any = import_module("distributed")
    except ImportError:
        raise UserError(
            "a cluster needs an extra that is not installed",
            where=address,
            todo="pip install 'pourwright[cluster]'",
        ) from None
    # what it would write to the terminal is told by our own errors
    logging.getLogger("distributed").setLevel(logging.CRITICAL + 1)
    try:
        # where nobody listens at all this says so at once; the client would go on trying
        socket.create_connection((parts["host"].strip("[]"), int(parts["port"])), within).close()
        return _in_time(within, lambda: distributed.Client(address, timeout=within, set_as_default=False))
    except (OSError, OverflowError) as error:
        raise UserError(
            f"no cluster answers: {error}",
            where=address,
            todo="start 'dask scheduler' there, or check address and firewall",
        ) from error


def _in_time(limit: float, ask: Callable[[], T]) -> T:
    """Ask somebody who may never answer; the client itself waits for ever once it is connected."""
    answers: queue.SimpleQueue[Callable[[], T]] = queue.SimpleQueue()

    def asked() -> None:
        try:
            answer = ask()
        except Exception as error:  # noqa: BLE001 - raised again in the thread that waits
            answers.put(functools.partial(_raise, error))
        else:
            answers.put(lambda: answer)

    threading.Thread(target=asked, daemon=True).start()
    try:
        return answers.get(timeout=limit + PATIENCE)()
    except queue.Empty:
        raise TimeoutError(f"no answer within {limit:g} s") from None


def _raise(error: Exception) -> NoReturn:
    raise error


def _refuse_other_code(client: Any, address: str) -> None:
    try:
        digests = _in_time(CONNECT_WITHIN, lambda: client.run(code_digest))
    except Exception as error:
        raise UserError(
            f"its workers cannot load pourwright: {error}",
            where=address,
            todo="install the same version of pourwright with each worker",
        ) from error
    if not digests:
        raise UserError(
            "no worker is there", where=address, todo="start 'dask worker' on each computer that shall work"
        )
    if others := [worker for worker, digest in digests.items() if digest != code_digest()]:
        raise UserError(
            f"the workers {', '.join(sorted(others))} have another pourwright, numpy, numba or Python",
            where=address,
            todo="install the same versions everywhere; else results would differ",
        )


def do_remotely(function: bytes, item: bytes, tokens: tuple[str, ...], *shared: bytes) -> Answer:
    """Do one item; this runs at a worker.

    Parameters
    ----------
    function, item : bytes
        What is done to what.
    tokens : tuple of str
        Of the shared values.
    *shared : bytes
        The shared values.

    Returns
    -------
    tuple
        "done" and the result, or "failed", the error and its trace.
    """
    try:
        wire, ready = _prepared(function, tuple(zip(tokens, shared, strict=True)))
        result = call(ready, wire.unpack(item), lambda _: None)
        return "done", wire.pack(result).content, ""
    except Exception as error:  # noqa: BLE001 - raised again where the work was ordered
        return "failed", *error_as_bytes(error)


@functools.lru_cache(maxsize=4)
def _prepared(function: bytes, shared: Shared) -> tuple[Wire, Callable[..., Any]]:
    """Unpack once what many items have in common."""
    wire = Wire()
    for token, content in shared:
        wire.receive(token, content)
    return wire, wire.unpack(function)


class _Round:
    """One `map` under way."""

    def __init__(
        self,
        client: Any,
        wire: Wire,
        sent: dict[str, Any],
        function: Callable[..., Any],
        items: Sequence[object],
        progress: Progress,
        stage: str,
    ) -> None:
        self._client, self._wire, self._shared = client, wire, sent
        self._items, self._progress, self._stage = items, progress, stage
        self._packed = pack_function(wire, function)
        self._function = self._send(self._packed.content)
        self._back: queue.SimpleQueue[int] = queue.SimpleQueue()
        self._flying: dict[int, Any] = {}
        self._next = 0
        self._finished = 0
        self._failures: dict[int, BaseException] = {}

    def run(self) -> Generator[tuple[int, Any], None, None]:
        """Keep the cluster supplied until all items are back."""
        ahead = AHEAD * max(1, sum(self._client.nthreads().values()))
        try:
            while self._open():
                while len(self._flying) < ahead and self._next < len(self._items) and not self._failures:
                    self._submit()
                self._progress.step(self._stage, self._finished, len(self._items))
                yield from self._receive()
            self._progress.step(self._stage, self._finished, len(self._items))
            if self._failures:
                raise self._failures[min(self._failures)]
        finally:
            if self._flying and self._client.status == "running":
                self._client.cancel(list(self._flying.values()), force=True)

    def _open(self) -> bool:
        if self._failures:
            return any(number < min(self._failures) for number in self._flying)
        return bool(self._flying) or self._next < len(self._items)

    def _send(self, content: bytes) -> Any:
        # a key of its own: one made from the content may just be on its way out of the workers
        with self._scheduler():
            return self._client.scatter(content, hash=False)

    def _submit(self) -> None:
        number, item = self._next, self._wire.pack(self._items[self._next])
        needs = tuple(dict.fromkeys(self._wire.in_order((*self._packed.needs, *item.needs))))
        for token in needs:
            if token not in self._shared:
                self._shared[token] = self._send(self._wire.packed(token).content)
        shared = [self._shared[token] for token in needs]
        with self._scheduler():
            future = self._client.submit(
                do_remotely, self._function, item.content, needs, *shared, pure=False
            )
        self._flying[number] = future
        future.add_done_callback(lambda _: self._back.put(number))
        self._next += 1

    def _receive(self) -> Iterator[tuple[int, Any]]:
        if self._client.status != "running":
            raise self._lost()
        try:
            number = self._back.get(timeout=PATIENCE)
        except queue.Empty:
            return
        with self._scheduler():
            kind, content, trace = self._flying.pop(number).result()
        value = self._wire.unpack(content)
        if kind == "done":
            self._finished += 1
            yield number, value
        else:
            note_item(value, number, len(self._items), trace)
            self._failures[number] = value

    @contextlib.contextmanager
    def _scheduler(self) -> Iterator[None]:
        """Turn what goes wrong between here and the cluster into one clear error."""
        distributed: Any = import_module("distributed")
        try:
            yield
        except distributed.KilledWorker as error:
            raise UserError(
                "workers of the cluster die at this work; most likely their memory is not enough",
                todo="give each worker fewer threads or more memory",
            ) from error
        except (distributed.CancelledError, OSError, TimeoutError) as error:
            raise self._lost() from error

    def _lost(self) -> UserError:
        return UserError(
            "the connection to the cluster is lost",
            todo="see that its scheduler runs, then start this again: what was kept is not done again",
        )
