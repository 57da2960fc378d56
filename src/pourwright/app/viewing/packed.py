"""Arrays in one run of bytes: a short JSON header that names them, then each of them as it lies in memory."""

from __future__ import annotations

import json
import struct
from collections.abc import Mapping
from typing import Any

import numpy as np
import numpy.typing as npt

ALIGNED = 8
"""Every array begins at a multiple of so many bytes, so that a browser can lay its own array over it."""
_KINDS = {"<f4": "f4", "<u4": "u4", "<f2": "f2", "|u1": "u1"}


def packed(about: Mapping[str, Any], arrays: Mapping[str, npt.NDArray[Any]]) -> bytes:
    """Put arrays into one run of bytes.

    Parameters
    ----------
    about : mapping
        What the header says besides, as JSON has it.
    arrays : mapping
        By name; single precision, half precision, whole numbers of 32 or 8 bits.

    Returns
    -------
    bytes
        Length of the header (4 bytes, low byte first), the header, padding, the arrays; the same arrays give
        the same bytes. ``arrays`` in the header has for each its kind (f4, u4, f2, u1), its shape and where
        it begins, counted from the end of the padded header.

    Examples
    --------
    >>> content = packed({"id": "piece"}, {"x": np.array([1.0, 2.0], dtype=np.float32)})
    >>> unpacked(content)[0]["id"], unpacked(content)[1]["x"].tolist()
    ('piece', [1.0, 2.0])
    """
    table, parts, begin = {}, [], 0
    for name, array in arrays.items():
        plain = np.ascontiguousarray(array)
        table[name] = {"kind": _KINDS[plain.dtype.str], "shape": list(plain.shape), "begin": begin}
        content = plain.tobytes()
        parts.append(content + bytes(-len(content) % ALIGNED))
        begin += len(parts[-1])
    header = json.dumps({**about, "arrays": table}, sort_keys=True, separators=(",", ":")).encode()
    header += b" " * (-(len(header) + 4) % ALIGNED)
    return struct.pack("<I", len(header)) + header + b"".join(parts)


def unpacked(content: bytes) -> tuple[dict[str, Any], dict[str, npt.NDArray[Any]]]:
    """Take arrays out of a run of bytes.

    Parameters
    ----------
    content : bytes
        From `packed`.

    Returns
    -------
    tuple of dict and dict
        The header, and the arrays by name.
    """
    (length,) = struct.unpack("<I", content[:4])
    about: dict[str, Any] = json.loads(content[4 : 4 + length])
    arrays = {}
    for name, told in about.pop("arrays").items():
        count = int(np.prod(told["shape"]))
        found = np.frombuffer(content, f"<{told['kind']}", count, 4 + length + told["begin"])
        arrays[name] = found.reshape(told["shape"])
    return about, arrays
