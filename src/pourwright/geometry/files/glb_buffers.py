"""The tables of numbers in a GLB file."""

from __future__ import annotations

from typing import Any

import numpy as np
import numpy.typing as npt

from pourwright.geometry.mesh import Integers

_KINDS = {5120: "<i1", 5121: "<u1", 5122: "<i2", 5123: "<u2", 5125: "<u4", 5126: "<f4"}
_PACKING = ("EXT_meshopt_compression", "KHR_meshopt_compression", "KHR_draco_mesh_compression")


class Buffers:
    """Reads accessors: tables in the bytes behind the description.

    Parameters
    ----------
    tree : dict
        The description.
    binary : bytes
        The bytes.
    """

    def __init__(self, tree: dict[str, Any], binary: bytes) -> None:
        self._tree, self._binary = tree, binary

    def places(self, accessor: Any) -> npt.NDArray[np.floating]:
        """Give places, three numbers each.

        Parameters
        ----------
        accessor : int
            Number of the table.

        Returns
        -------
        array (n, 3)
        """
        entry = self._entry("accessors", accessor)
        if entry.get("type") != "VEC3":
            raise ValueError("its places have not three numbers each")
        table = self._sparse(entry, self._table(entry, 3))
        if entry.get("normalized") and table.dtype.kind in "iu":
            highest = np.iinfo(table.dtype).max
            return np.maximum(table.astype(np.float64) / highest, -1.0)
        return table if table.dtype == np.float32 else table.astype(np.float64)

    def corners(self, accessor: Any) -> Integers:
        """Give vertex numbers.

        Parameters
        ----------
        accessor : int
            Number of the table.

        Returns
        -------
        array (n,)
        """
        entry = self._entry("accessors", accessor)
        if entry.get("type") != "SCALAR" or entry.get("componentType") not in {5121, 5123, 5125}:
            raise ValueError("its corners are no whole numbers")
        return self._sparse(entry, self._table(entry, 1))[:, 0].astype(np.int64)

    def _entry(self, table: str, number: Any) -> dict[str, Any]:
        entries = self._tree.get(table)
        if type(number) is not int or not isinstance(entries, list) or not 0 <= number < len(entries):
            raise ValueError(f"its {table} have no number {str(number)[:20]}")
        entry: dict[str, Any] = entries[number]
        return entry

    def _table(self, entry: dict[str, Any], width: int) -> npt.NDArray[Any]:
        """Read the rows of an accessor, or of its sparse part."""
        kind = np.dtype(_KINDS[entry["componentType"]])
        rows = _whole(entry, "count")
        if "bufferView" not in entry:
            if rows > len(self._binary):
                raise ValueError("it announces more numbers than it holds")
            return np.zeros((rows, width), dtype=kind)
        view, start, end = self._view(entry["bufferView"])
        start += _whole(entry, "byteOffset", 0)
        step = _whole(view, "byteStride", 0) or width * kind.itemsize
        if rows and start + step * (rows - 1) + width * kind.itemsize > end:
            raise ValueError("it is cut off: a table goes on behind its end")
        if not rows:
            return np.zeros((0, width), dtype=kind)
        strides = (step, kind.itemsize)
        return np.ndarray((rows, width), kind, self._binary, start, strides)

    def _view(self, number: Any) -> tuple[dict[str, Any], int, int]:
        """Give a part of the bytes, and where it begins and ends."""
        view = self._entry("bufferViews", number)
        packed = next((name for name in _PACKING if name in view.get("extensions", {})), None)
        if packed is not None:
            raise ValueError(f"its numbers are packed by {packed}, which is not read: save it without")
        buffer = self._entry("buffers", view["buffer"])
        if "uri" in buffer or view["buffer"] != 0:
            raise ValueError("it leans on another file; save it with everything inside")
        start = _whole(view, "byteOffset", 0)
        end = start + _whole(view, "byteLength")
        if end > len(self._binary):
            raise ValueError("it is cut off: a table goes on behind its end")
        return view, start, end

    def _sparse(self, entry: dict[str, Any], table: npt.NDArray[Any]) -> npt.NDArray[Any]:
        """Put in the rows that an accessor gives anew."""
        if "sparse" not in entry:
            return table
        sparse = entry["sparse"]
        rows = {"count": sparse["count"]}
        places = self._table(sparse["indices"] | rows, 1)[:, 0].astype(np.int64)
        kind = {"componentType": entry["componentType"]}
        fresh = self._table(sparse["values"] | rows | kind, table.shape[1])
        if places.size and not 0 <= places.min() <= places.max() < len(table):
            raise ValueError("a table mends a row that is not there")
        mended = table.copy()
        mended[places] = fresh
        return mended


def _whole(entry: dict[str, Any], key: str, otherwise: int | None = None) -> int:
    value = entry.get(key, otherwise)
    if type(value) is not int or value < 0:
        raise ValueError(f"its {key} is no count: {str(value)[:20]}")
    return value
