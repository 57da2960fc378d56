"""Write and read back plain values; reading can neither call nor import anything but those."""

from __future__ import annotations

import dataclasses
import io
import pickle
from collections.abc import Callable
from enum import Enum
from types import MappingProxyType
from typing import Any
from zoneinfo import ZoneInfo

_ALLOWED = {
    "builtins": {"bytearray", "complex", "frozenset", "range", "set", "slice"},
    "collections": {"OrderedDict"},
    "datetime": {"date", "datetime", "time", "timedelta", "timezone"},
    "fractions": {"Fraction"},
    "numpy": {"dtype", "ndarray"},
    "numpy._core.multiarray": {"_reconstruct", "scalar"},
    "numpy._core.numeric": {"_frombuffer"},
    "pathlib": {"Path", "PosixPath", "PurePath", "PurePosixPath", "PureWindowsPath", "WindowsPath"},
    "pourwright.runs.plain": {"frozen_mapping"},
    "zoneinfo": {"ZoneInfo"},
}


def write_plain(value: object) -> bytes:
    """Write a value as bytes.

    Parameters
    ----------
    value : object
        Dataclasses, named tuples and enums of this package, arrays, numbers, text, dates, and tuples, lists,
        sets and mappings of them.

    Returns
    -------
    bytes

    Raises
    ------
    TypeError
        For a value that could not be read back.
    """
    buffer = io.BytesIO()
    try:
        Writer(buffer, protocol=5).dump(value)
        content = buffer.getvalue()
        read_plain(content)
    except (pickle.PickleError, AttributeError) as error:
        raise TypeError(f"cannot be kept: {error}") from error
    return content


def read_plain(content: bytes) -> object:
    """Read a value that `write_plain` wrote.

    Parameters
    ----------
    content : bytes
        From anywhere.

    Returns
    -------
    object
        The value.

    Raises
    ------
    pickle.UnpicklingError
        For content that asks for anything but plain values; damaged content raises other errors too.
    """
    return _Reader(io.BytesIO(content)).load()


def frozen_mapping(content: dict[Any, Any]) -> MappingProxyType[Any, Any]:
    """Freeze a mapping again."""
    return MappingProxyType(content)


class Writer(pickle.Pickler):
    """A pickler that also writes frozen mappings, and time zones without calling a function."""

    def reducer_override(self, value: object) -> Any:
        """Write by its constructor what would else be written by a function."""
        if type(value) is ZoneInfo and value.key is not None:
            return ZoneInfo, (value.key,)
        if isinstance(value, MappingProxyType):
            return frozen_mapping, (dict(value),)
        return NotImplemented


class _Reader(pickle.Unpickler):
    def find_class(self, module: str, name: str) -> object:
        """Allow constructors of plain values only."""
        if name in _ALLOWED.get(module, ()):
            return super().find_class(module, name)
        if module == "pourwright" or module.startswith("pourwright."):
            found = super().find_class(module, name)
            # a dotted name could reach what a module of ours has imported
            if isinstance(found, type) and found.__module__ == module and _is_plain(found):
                return found
        raise pickle.UnpicklingError(f"{module}.{name} is no plain value")


def _is_plain(kind: type) -> bool:
    tests: tuple[Callable[[type], bool], ...] = (
        dataclasses.is_dataclass,
        lambda one: issubclass(one, Enum),
        lambda one: issubclass(one, tuple) and hasattr(one, "_fields"),
    )
    return any(test(kind) for test in tests)
