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
from zoneinfo import ZoneInfo

import numpy as np

import pourwright

_ROOMS = (
    "foundation", "physics", "geometry", "solver", "materials", "mold", "fill", "pour", "planner",
    "calibration", "data",
)  # fmt: skip
_LIBRARIES = ("numpy", "numba", "scipy")
_Encoder = Callable[[object, str], Iterator[bytes]]


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
    digest = hashlib.sha256(code_digest().encode())
    for part in _encoded(value, "value"):
        digest.update(part)
    return digest.hexdigest()


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


def _encoded(value: object, place: str) -> Iterator[bytes]:
    """Write a value as bytes that no other value gives: kind, length, content."""
    kind = type(value)
    exact = _EXACT.get(kind)
    if exact is not None:
        yield from _piece(kind.__name__, exact(value))
        return
    for family, encoder in _FAMILIES:
        if family(value):
            yield from encoder(value, place)
            return
    raise TypeError(f"no fingerprint of a {kind.__name__} at {place}")


def _piece(kind: str, content: bytes) -> Iterator[bytes]:
    yield b"%b\0%d\0" % (kind.encode(), len(content))
    yield content


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


def _name(kind: type) -> str:
    return f"{kind.__module__}.{kind.__qualname__}"


def _group(kind: str, members: list[tuple[object, str]]) -> Iterator[bytes]:
    yield b"%b\0%d\0" % (kind.encode(), len(members))
    for member, place in members:
        yield from _encoded(member, place)


def _enum(value: Enum, _place: str) -> Iterator[bytes]:
    return _piece(_name(type(value)), value.name.encode())


def _record(value: object, place: str) -> Iterator[bytes]:
    names = [field.name for field in dataclasses.fields(value)]  # type: ignore[arg-type]  # asked for below
    members = [(name, place) for name in names]
    contents = [(getattr(value, name), f"{place}.{name}") for name in names]
    return _group(_name(type(value)), [each for pair in zip(members, contents, strict=True) for each in pair])


def _is_record(value: object) -> bool:
    parameters = getattr(type(value), "__dataclass_params__", None)
    return parameters is not None and bool(parameters.frozen)


def _array(value: np.ndarray, place: str) -> Iterator[bytes]:
    if value.dtype.hasobject:
        raise TypeError(f"no fingerprint of an array of objects at {place}")
    yield from _piece("array", f"{value.dtype.descr} {value.shape}".encode())
    yield np.ascontiguousarray(value).tobytes()


def _sequence(value: tuple[object, ...] | list[object], place: str) -> Iterator[bytes]:
    return _group(_name(type(value)), [(each, f"{place}[{n}]") for n, each in enumerate(value)])


def _sorted_group(kind: str, members: list[bytes]) -> Iterator[bytes]:
    yield b"%b\0%d\0" % (kind.encode(), len(members))
    yield from sorted(members)


def _mapping(value: Mapping[object, object], place: str) -> Iterator[bytes]:
    members = [
        b"".join(_encoded(key, f"{place} key")) + b"".join(_encoded(each, f"{place}[{key!r}]"))
        for key, each in value.items()
    ]
    return _sorted_group("mapping", members)


def _set(value: frozenset[object], place: str) -> Iterator[bytes]:
    return _sorted_group("set", [b"".join(_encoded(each, f"{place} member")) for each in value])


def _is_a(*kinds: type) -> Callable[[object], bool]:
    return lambda value: isinstance(value, kinds)


def _named_or_plain(value: object) -> bool:
    return type(value) in {tuple, list} or (isinstance(value, tuple) and hasattr(type(value), "_fields"))


def _path(value: PurePath, _place: str) -> Iterator[bytes]:
    return _piece("path", value.as_posix().encode("utf8", "surrogatepass"))


def _scalar(value: np.generic, place: str) -> Iterator[bytes]:
    return _encoded(value.item(), place) if not value.dtype.hasobject else iter(())


# an enum may be text, a named tuple is a tuple: the first that fits is meant
_FAMILIES: tuple[tuple[Callable[[object], bool], Callable[..., Iterator[bytes]]], ...] = (
    (_is_a(Enum), _enum),
    (_is_record, _record),
    (_is_a(np.ndarray), _array),
    (_is_a(np.float64, np.integer, np.bool_), _scalar),
    (_named_or_plain, _sequence),
    (_is_a(Mapping), _mapping),
    (_is_a(set, frozenset), _set),
    (_is_a(PurePath), _path),
)
