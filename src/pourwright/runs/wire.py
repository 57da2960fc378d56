"""How values travel to other processes: what many items share goes once, by a token from then on."""

from __future__ import annotations

import hashlib
import io
import pickle
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import IO, Any

from pourwright.runs.plain import Writer

LENGTH = 8


@dataclass(frozen=True, slots=True)
class Packed:
    """A value as bytes.

    Parameters
    ----------
    content : bytes
        The value.
    needs : tuple of str
        Tokens of the shared values inside it.
    """

    content: bytes
    needs: tuple[str, ...]


class Wire:
    """One end of the line: packs and unpacks values, and knows the shared ones."""

    def __init__(self) -> None:
        self._packed: dict[str, Packed] = {}
        self._values: dict[str, object] = {}
        self._tokens: dict[int, str] = {}

    def share(self, value: object) -> str:
        """Know a value; from now on it is packed as its token wherever the same object stands."""
        known = self._tokens.get(id(value))
        if known is not None:
            return known
        packed = self.pack(value)
        token = hashlib.sha256(packed.content).hexdigest()
        self._packed[token] = packed
        self._learn(token, value)
        return token

    def packed(self, token: str) -> Packed:
        """A shared value as bytes."""
        return self._packed[token]

    def receive(self, token: str, content: bytes) -> None:
        """Know a value that the other end shares."""
        if token not in self._values:
            self._learn(token, self.unpack(content))

    def knows(self, token: str) -> bool:
        """Whether a token is known here."""
        return token in self._values

    def _learn(self, token: str, value: object) -> None:
        # kept, so that its id stays its own
        self._values[token] = value
        self._tokens[id(value)] = token

    def pack(self, value: object) -> Packed:
        """Turn a value into bytes."""
        buffer = io.BytesIO()
        writer = _Writer(buffer, self._tokens)
        writer.dump(value)
        return Packed(buffer.getvalue(), tuple(writer.needs))

    def unpack(self, content: bytes) -> Any:
        """Turn bytes from one of our own processes into the value."""
        return _Reader(io.BytesIO(content), self._values).load()

    def in_order(self, needs: tuple[str, ...]) -> Iterator[str]:
        """Tokens of shared values, each after those that it needs itself."""
        for token in needs:
            yield from self.in_order(self._packed[token].needs)
            yield token


class _Writer(Writer):
    def __init__(self, buffer: IO[bytes], tokens: dict[int, str]) -> None:
        super().__init__(buffer, protocol=5)
        self._known = tokens
        self.needs: dict[str, None] = {}

    def persistent_id(self, value: object) -> str | None:
        """Write a shared value as its token."""
        token = self._known.get(id(value))
        if token is not None:
            self.needs[token] = None
        return token

    def reducer_override(self, value: object) -> Any:
        """Write an error by what it holds: its constructor may want other arguments than those it keeps."""
        if isinstance(value, BaseException) and type(value).__reduce__ is BaseException.__reduce__:
            return revive, (type(value), value.args), value.__dict__ or None
        return super().reducer_override(value)


def revive(kind: type[BaseException], arguments: tuple[object, ...]) -> BaseException:
    """Make an error without its constructor.

    Parameters
    ----------
    kind : class
        Of the error.
    arguments : tuple
        What it keeps.

    Returns
    -------
    exception
    """
    error = kind.__new__(kind, *arguments)
    error.args = arguments
    return error


class _Reader(pickle.Unpickler):
    def __init__(self, buffer: IO[bytes], values: dict[str, object]) -> None:
        super().__init__(buffer)
        self._known = values

    def persistent_load(self, token: str) -> object:
        """Put the shared value where its token stands."""
        return self._known[token]


def pack_function(wire: Wire, function: Callable[..., object]) -> Packed:
    """Turn a function into bytes: its name, and what a ``functools.partial`` has bound.

    Parameters
    ----------
    wire : Wire
        This end of the line.
    function : callable
        Importable.

    Returns
    -------
    Packed

    Raises
    ------
    TypeError
        For a function that another process could not import.
    """
    name = getattr(function, "__qualname__", repr(function))
    refused = f"{name} cannot be given to another process: it must stand at the top of a module"
    if getattr(getattr(function, "func", function), "__module__", None) == "__main__":
        raise TypeError(refused)
    try:
        return wire.pack(function)
    except (pickle.PicklingError, AttributeError) as error:
        raise TypeError(refused) from error


def write_message(stream: IO[bytes], message: tuple[object, ...]) -> None:
    """Send a message of plain values.

    Parameters
    ----------
    stream : binary file
        To the other process.
    message : tuple
        Text, numbers, bytes.
    """
    content = pickle.dumps(message, protocol=5)
    stream.write(len(content).to_bytes(LENGTH, "little"))
    stream.write(content)
    stream.flush()


def read_message(stream: IO[bytes]) -> tuple[Any, ...] | None:
    """Wait for a message.

    Parameters
    ----------
    stream : binary file
        From the other process.

    Returns
    -------
    tuple or None
        None where the other process is no more.
    """
    size = stream.read(LENGTH)
    if len(size) < LENGTH:
        return None
    length = int.from_bytes(size, "little")
    content = stream.read(length)
    if len(content) < length:
        return None
    message: tuple[Any, ...] = pickle.loads(content)  # noqa: S301 - from a process this one has started
    return message
