"""The body itself as files, in the frame it came in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from pourwright.app.shaping.looked import Looked
from pourwright.geometry.files.writers import stl_bytes, threemf_bytes


def body_files(looked: Looked, _told: Mapping[str, Any]) -> Iterator[tuple[str, bytes]]:
    """Write the body for other programs, as it was mended or made.

    Parameters
    ----------
    looked : Looked
        The shape.

    Yields
    ------
    tuple of str and bytes
        ``shape.stl`` and ``shape.3mf``, both in millimetres.
    """
    shaped = looked.shaped
    yield "shape.stl", stl_bytes(shaped.mesh)
    yield "shape.3mf", threemf_bytes(shaped.mesh, shaped.name)
