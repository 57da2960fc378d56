"""What can be told and drawn of a shape, look by look."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import Any

from pourwright.app.shaping.body_files import body_files
from pourwright.app.shaping.looked import Looked
from pourwright.foundation.progress import Progress

Told = Mapping[str, Any]

LOOKS: Mapping[str, Callable[[Looked, Progress], Any]] = MappingProxyType({})
"""Parts of the answer by key, in the order in which they are told; each gives what JSON can hold."""

FILES: tuple[Callable[[Looked, Told], Iterator[tuple[str, bytes]]], ...] = (body_files,)
"""Makers of files, each from the shape and all that was told of it."""
