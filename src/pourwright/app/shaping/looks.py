"""What can be told and drawn of a shape, look by look."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import Any

from pourwright.app.shaping.body_files import body_files
from pourwright.app.shaping.ledger import ledger, master_of_shape
from pourwright.app.shaping.looked import Looked
from pourwright.app.shaping.mended_files import mended_files
from pourwright.app.shaping.tape_look import tape_look
from pourwright.app.shaping.tape_picture import measured_files
from pourwright.app.shaping.thin_files import thin_files
from pourwright.app.shaping.thin_look import thin_look
from pourwright.app.shaping.way_files import way_files
from pourwright.app.shaping.way_look import ways_look
from pourwright.foundation.progress import Progress

Told = Mapping[str, Any]

LOOKS: Mapping[str, Callable[[Looked, Progress], Any]] = MappingProxyType(
    {"tape": tape_look, "ways": ways_look, "thin": thin_look, "ledger": ledger}
)
"""Parts of the answer by key, in the order in which they are told; each gives what JSON can hold."""

FILES: tuple[Callable[[Looked, Told], Iterator[tuple[str, bytes]]], ...] = (
    body_files,
    master_of_shape,
    way_files,
    thin_files,
    mended_files,
    measured_files,
)
"""Makers of files, each from the shape and all that was told of it."""
