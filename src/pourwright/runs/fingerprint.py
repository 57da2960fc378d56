"""One name for one set of inputs: the same inputs give the same 64 digits, any change gives others."""

from __future__ import annotations

import dataclasses
import hashlib
import struct
import sys
from collections.abc import Callable, Iterator, Mapping
from datetime import date, datetime, time, timedelta, tzinfo
from enum import Enum
from fractions import Fraction
from functools import cache
from importlib.metadata import version
from pathlib import Path, PurePath
from typing import Any
from zoneinfo import ZoneInfo

import numpy as np

import pourwright

_ROOMS = (
    "foundation", "physics", "geometry", "solver", "materials", "mold", "fill", "pour", "planner",
    "calibration", "data", "app",
)  # fmt: skip
_LIBRARIES = ("numpy", "numba", "scipy")
_Put = Callable[[bytes], object]


def fingerprint(value: object) -> str:
    """Name a value and the code that will compute with it.

    Parameters
    ----------
    value : object
        Frozen dataclasses, named tuples, arrays, tuples, lists, mappings, sets, enums, text, bytes, numbers,
        None, dates and times, time zones, fractions, paths (as they are written, not what is in the file).

    Returns
    -------
    str
        64 hexadecimal digits; others as soon as the value, this package's rooms that compute, or the
        libraries under them are changed.

    Raises
    ------
    TypeError
        For anything else, with the place where it stands.

    Examples
    --------
    >>> fingerprint({"b": 1.0, "a": (2,)}) == fingerprint({"a": (2,), "b": 1.0})
    True
    >>> fingerprint(1) == fingerprint(1.0)
    False
    >>> fingerprint({"way": [print]})
    Traceback (most recent call last):
    TypeError: no fingerprint of a builtin_function_or_method at value['way'][0]
    """
    return Fingerprints().of(value)


class Fingerprints:
    """Names many values that have parts in common: each part is read once.

    As long as it lives, no array in a value it has seen may be changed.

    Examples
    --------
    >>> Fingerprints().of((1, "two")) == fingerprint((1, "two"))
    True
    """

    def __init__(self) -> None:
        self._records: dict[int, tuple[object, bytes]] = {}

    def of(self, value: object) -> str:
        """Name one value, as `fingerprint` does."""
        digest = hashlib.sha256(code_digest().encode())
        try:
            self._put(value, digest.update)
        except _UnknownError as unknown:
            raise TypeError(f"no fingerprint of {unknown.kind} at value{unknown.place}") from None
        return digest.hexdigest()

    def _put(self, value: object, put: _Put) -> None:
        """Write a value as bytes that no other value gives: kind, length, content."""
        kind = type(value)
        exact = _EXACT.get(kind)
        if exact is not None:
            _piece(put, kind.__name__, exact(value))
            return
        for family, writer in _FAMILIES:
            if family(value):
                writer(self, value, put)
                return
        raise _UnknownError(f"a {kind.__name__}")

    def _at(self, place: str, value: object, put: _Put) -> None:
        try:
            self._put(value, put)
        except _UnknownError as unknown:
            unknown.place = place + unknown.place
            raise

    def record(self, value: object, put: _Put) -> None:
        """Write a frozen dataclass as the digest of its class and fields."""
        known = self._records.get(id(value))
        if known is None:
            kind: Any = type(value)
            digest = hashlib.sha256(_name(kind).encode())
            for name in _field_names(kind):
                _piece(digest.update, "field", name.encode())
                self._at(f".{name}", getattr(value, name), digest.update)
            # with the value itself, so that its id stays its own
            known = self._records[id(value)] = (value, digest.digest())
        _piece(put, "record", known[1])

    def sequence(self, value: tuple[object, ...] | list[object], put: _Put) -> None:
        """Write a tuple, a named tuple or a list."""
        _head(put, _name(type(value)), len(value))
        for number, each in enumerate(value):
            self._at(f"[{number}]", each, put)

    def mapping(self, value: Mapping[object, object], put: _Put) -> None:
        """Write keys and values, in whatever order they stand there."""
        members = []
        for key, each in value.items():
            parts: list[bytes] = []
            self._at(" key", key, parts.append)
            self._at(f"[{key!r}]", each, parts.append)
            members.append(b"".join(parts))
        _sorted(put, "mapping", members)

    def set(self, value: frozenset[object], put: _Put) -> None:
        """Write the members of a set."""
        members = []
        for each in value:
            parts: list[bytes] = []
            self._at(" member", each, parts.append)
            members.append(b"".join(parts))
        _sorted(put, "set", members)


class _UnknownError(Exception):
    def __init__(self, kind: str) -> None:
        super().__init__(kind)
        self.kind = kind
        self.place = ""


@cache
def code_digest() -> str:
    """Name the code that computes: this package's rooms and the libraries under them.

    Returns
    -------
    str
        64 hexadecimal digits.
    """
    digest = hashlib.sha256()
    versions = [f"{name} {version(name)}" for name in _LIBRARIES]
    python = f"python {sys.version_info.major}.{sys.version_info.minor}"
    digest.update("\n".join([f"pourwright {pourwright.__version__}", python, *versions]).encode())
    package = Path(pourwright.__file__).parent
    for path in sorted(_sources(package)):
        name, content = path.relative_to(package).as_posix().encode(), path.read_bytes()
        digest.update(b"\0%b\0%d\0%b" % (name, len(content), content))
    return digest.hexdigest()


def _sources(package: Path) -> Iterator[Path]:
    for room in _ROOMS:
        for path in (package / room).rglob("*"):
            if path.suffix in {".py", ".toml"} and path.is_file():
                yield path


def _head(put: _Put, kind: str, length: int) -> None:
    put(b"%b\0%d\0" % (kind.encode(), length))


def _piece(put: _Put, kind: str, content: bytes) -> None:
    _head(put, kind, len(content))
    put(content)


def _sorted(put: _Put, kind: str, members: list[bytes]) -> None:
    _head(put, kind, len(members))
    for each in sorted(members):
        put(each)


def _float(value: float) -> bytes:
    # one NaN is as good as another
    return b"nan" if value != value else struct.pack("<d", value)  # noqa: PLR0124


def _clock(value: datetime | time) -> bytes:
    text = f"{value.isoformat()} {value.fold} {_zone(value.tzinfo)}"
    return text.encode()


def _zone(zone: tzinfo | None) -> str:
    if zone is None:
        return ""
    key = getattr(zone, "key", None)
    return key if isinstance(key, str) else f"{type(zone).__name__} {zone!r}"


_EXACT: dict[type, Callable[..., bytes]] = {
    type(None): lambda _: b"",
    bool: lambda value: b"1" if value else b"0",
    int: lambda value: b"%d" % value,
    float: _float,
    complex: lambda value: _float(value.real) + b" " + _float(value.imag),
    str: lambda value: value.encode("utf8", "surrogatepass"),
    bytes: bytes,
    Fraction: lambda value: b"%d/%d" % (value.numerator, value.denominator),
    datetime: _clock,
    time: _clock,
    date: lambda value: value.isoformat().encode(),
    timedelta: lambda value: repr(value).encode(),
    ZoneInfo: lambda value: _zone(value).encode(),
}


@cache
def _name(kind: type[Any]) -> str:
    return f"{kind.__module__}.{kind.__qualname__}"


@cache
def _field_names(kind: type[Any]) -> tuple[str, ...]:
    return tuple(field.name for field in dataclasses.fields(kind))


def _is_record(value: object) -> bool:
    parameters = getattr(type(value), "__dataclass_params__", None)
    return parameters is not None and bool(parameters.frozen)


def _is_a(*kinds: type) -> Callable[[object], bool]:
    return lambda value: isinstance(value, kinds)


def _named_or_plain(value: object) -> bool:
    return type(value) in {tuple, list} or (isinstance(value, tuple) and hasattr(type(value), "_fields"))


def _enum(_: Fingerprints, value: Enum, put: _Put) -> None:
    _piece(put, _name(type(value)), value.name.encode())


def _array(_: Fingerprints, value: np.ndarray, put: _Put) -> None:
    if value.dtype.hasobject:
        raise _UnknownError("an array of objects")
    _piece(put, "array", f"{value.dtype.descr} {value.shape}".encode())
    put(np.ascontiguousarray(value).tobytes())


def _scalar(names: Fingerprints, value: np.generic, put: _Put) -> None:
    names._put(value.item(), put)  # noqa: SLF001 - of the same module


def _path(_: Fingerprints, value: PurePath, put: _Put) -> None:
    _piece(put, "path", value.as_posix().encode("utf8", "surrogatepass"))


# an enum may be text, a named tuple is a tuple: the first that fits is meant
_FAMILIES: tuple[tuple[Callable[[object], bool], Callable[..., None]], ...] = (
    (_is_record, Fingerprints.record),
    (_is_a(Enum), _enum),
    (_is_a(np.ndarray), _array),
    (_is_a(np.float64, np.integer, np.bool_), _scalar),
    (_named_or_plain, Fingerprints.sequence),
    (_is_a(Mapping), Fingerprints.mapping),
    (_is_a(set, frozenset), Fingerprints.set),
    (_is_a(PurePath), _path),
)
