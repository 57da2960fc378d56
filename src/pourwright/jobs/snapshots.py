"""The heat file of a plan: temperature and cure of the casting through time, read back by slice.

An HDF5 file. ``temperature_degC`` and ``cured`` are arrays (time, x, y, z) in half
precision, NaN where there is no casting or nothing is poured yet; ``time_h`` counts from
the start of the first pour; ``x_m``, ``y_m``, ``z_m`` are the cells' middles, right-handed, z up
as poured from the mold's floor.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from io import BytesIO
from itertools import islice
from pathlib import Path
from types import TracebackType
from typing import Any, Literal, Self

import h5py
import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.errors import UserError

SCHEMA = "pourwright-heat-file/1.0"
Floats = NDArray[np.floating[Any]]
Quantity = Literal["temperature_degC", "cured"]
Axis = Literal["x", "y", "z"]
AXES: tuple[Axis, ...] = ("x", "y", "z")
BLOCK = 16
"""Moments in one packed piece of the file; along each side of the box a piece takes a third."""
_NAME = SCHEMA.partition("/")[0]
_MAJOR = SCHEMA.partition("/")[2].split(".")[0]
_TOLD = {
    "temperature_degC": ("degC", "temperature; NaN where no casting is, or none yet"),
    "cured": ("1", "degree of cure, 0 mixed to 1 fully cured; NaN where no casting is, or none yet"),
    "time_h": ("h", "after the start of the first pour; a pour's start stands twice, before and after it"),
    "pours_in": ("1", "number of pours in the mold"),
    "x_m": ("m", "middles of the cells, to the right of the piece's middle"),
    "y_m": ("m", "middles of the cells, behind the piece's middle"),
    "z_m": ("m", "middles of the cells, up from the mold's floor as poured"),
    "x_edges_m": ("m", "edges of the cells"),
    "y_edges_m": ("m", "edges of the cells"),
    "z_edges_m": ("m", "edges of the cells"),
    "pour_start_h": ("h", "start of each pour after the start of the first"),
    "pour_level_m": ("m", "level that each pour reaches, up from the mold's floor as poured"),
}


@dataclass(frozen=True, eq=False)
class SnapshotContent:
    """What goes into a heat file.

    Parameters
    ----------
    about : dict
        Words and numbers told once: title, version, plan_sha256.
    edges_m : tuple of array
        Of the cells along x, y, z [m].
    time_h, pours_in : array (n,)
        When each snapshot was taken [h], and how many pours were in the mold.
    pour_start_h, pour_level_m : sequence of float
        Of each pour [h], [m].
    boxes : iterator
        For each snapshot temperature [degC] and cure [-], arrays (nx, ny, nz).
    """

    about: dict[str, str | int]
    edges_m: tuple[Floats, Floats, Floats]
    time_h: Floats
    pours_in: NDArray[np.integer[Any]]
    pour_start_h: Sequence[float]
    pour_level_m: Sequence[float]
    boxes: Iterator[tuple[Floats, Floats]]


def snapshot_bytes(content: SnapshotContent) -> bytes:
    """Write a heat file; the same content gives the same bytes.

    Parameters
    ----------
    content : SnapshotContent
        Its snapshots are taken from the iterator a block at a time.

    Returns
    -------
    bytes
        An HDF5 file.
    """
    memory = BytesIO()
    with h5py.File(memory, "w", libver="v110") as file:
        file.attrs["schema"] = SCHEMA
        for key, value in sorted(content.about.items()):
            file.attrs[key] = value
        _write_axes(file, content)
        _write_fields(file, content)
        for name, (unit, words) in _TOLD.items():
            file[name].attrs["units"], file[name].attrs["long_name"] = unit, words
    return memory.getvalue()


def _write_axes(file: h5py.File, content: SnapshotContent) -> None:
    file["time_h"] = np.asarray(content.time_h, dtype=np.float64)
    file["pours_in"] = np.asarray(content.pours_in, dtype=np.int32)
    file["pour_start_h"] = np.asarray(content.pour_start_h, dtype=np.float64)
    file["pour_level_m"] = np.asarray(content.pour_level_m, dtype=np.float64)
    for axis, edges in zip(AXES, content.edges_m, strict=True):
        file[f"{axis}_edges_m"] = edges
        file[f"{axis}_m"] = (edges[1:] + edges[:-1]) / 2.0
    for name in ("time_h", "x_m", "y_m", "z_m"):
        file[name].make_scale(name)


def _write_fields(file: h5py.File, content: SnapshotContent) -> None:
    shape = (len(content.time_h), *(edges.size - 1 for edges in content.edges_m))
    pieces = (min(BLOCK, shape[0]), *(-(-side // 3) for side in shape[1:]))
    fields = [
        file.create_dataset(name, shape, np.float16, chunks=pieces, compression="gzip", shuffle=True)
        for name in ("temperature_degC", "cured")
    ]
    for field in fields:
        for place, name in enumerate(("time_h", "x_m", "y_m", "z_m")):
            field.dims[place].attach_scale(file[name])
    for first in range(0, shape[0], BLOCK):
        block = list(islice(content.boxes, BLOCK))
        for field, boxes in zip(fields, zip(*block, strict=True), strict=True):
            field[first : first + len(block)] = np.stack(boxes).astype(np.float16)


class SnapshotFile:
    """A heat file open for reading; close it, or use it in a ``with`` block.

    Parameters
    ----------
    path : Path or str
        The file.

    Raises
    ------
    UserError
        For a file that is not there, broken, something else, or of a newer major version.
    """

    def __init__(self, path: Path | str) -> None:
        self.path = Path(path)
        with self._told():
            self._file = h5py.File(self.path, "r")
        try:
            with self._told():
                self._read_axes()
        except UserError:
            self._file.close()
            raise

    def _read_axes(self) -> None:
        _refuse_other(str(self._file.attrs["schema"]))
        self.about: dict[str, str | int] = {
            key: value if isinstance(value, str) else int(value) for key, value in self._file.attrs.items()
        }
        self.time_h: Floats = self._file["time_h"][()]
        self.pours_in: NDArray[np.integer[Any]] = self._file["pours_in"][()]
        self.pour_start_h: Floats = self._file["pour_start_h"][()]
        self.pour_level_m: Floats = self._file["pour_level_m"][()]
        self.centers_m: dict[str, Floats] = {axis: self._file[f"{axis}_m"][()] for axis in AXES}
        self.edges_m: dict[str, Floats] = {axis: self._file[f"{axis}_edges_m"][()] for axis in AXES}
        shape = (self.time_h.size, *(self.centers_m[axis].size for axis in AXES))
        for name in ("temperature_degC", "cured"):
            if self._file[name].shape != shape:
                raise ValueError(f"{name} has another shape than its axes")

    def __enter__(self) -> Self:
        """Use the file in a block."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close the file."""
        self.close()

    def close(self) -> None:
        """Close the file."""
        self._file.close()

    def moment(self, time_h: float) -> int:
        """Number of the snapshot that holds at a time [h]: the last one not after it."""
        return max(int(np.searchsorted(self.time_h, time_h, side="right")) - 1, 0)

    def cell(self, axis: Axis, place_m: float) -> int:
        """Number of the cell along an axis that a place lies in [m]; UserError outside the box."""
        edges = self.edges_m[axis]
        if not edges[0] <= place_m <= edges[-1]:
            raise UserError(
                f"{axis} = {place_m:g} m lies outside the casting's box",
                where=str(self.path),
                allowed=f"{edges[0]:.4g} m to {edges[-1]:.4g} m",
            )
        return min(int(np.searchsorted(edges, place_m, side="right")) - 1, edges.size - 2)

    def plane(
        self, moment: int, axis: Axis, offset_m: float, quantity: Quantity = "temperature_degC"
    ) -> Floats:
        """Cut one snapshot: values over the two other axes, in the order x, y, z."""
        place: list[int | slice] = [slice(None)] * 3
        place[AXES.index(axis)] = self.cell(axis, offset_m)
        return self._values(quantity, (moment, *place))

    def film(self, axis: Axis, offset_m: float, quantity: Quantity = "temperature_degC") -> Floats:
        """Cut all snapshots by one plane: time first, then the two other axes."""
        place: list[int | slice] = [slice(None)] * 4
        place[1 + AXES.index(axis)] = self.cell(axis, offset_m)
        return self._values(quantity, tuple(place))

    def history(self, point_m: tuple[float, float, float], quantity: Quantity = "temperature_degC") -> Floats:
        """Values at one place through time, NaN before it is poured."""
        cells = [self.cell(axis, place) for axis, place in zip(AXES, point_m, strict=True)]
        return self._values(quantity, (slice(None), *cells))

    def box(self, moment: int, quantity: Quantity = "temperature_degC") -> Floats:
        """Whole casting of one snapshot (nx, ny, nz)."""
        return self._values(quantity, (moment,))

    def boxes(self, quantity: Quantity = "temperature_degC") -> Iterator[Floats]:
        """Whole casting of every snapshot in turn (nx, ny, nz); each packed piece is unpacked once."""
        for first in range(0, self.time_h.size, BLOCK):
            yield from self._values(quantity, (slice(first, first + BLOCK),))

    def _values(self, quantity: Quantity, place: tuple[int | slice, ...]) -> Floats:
        with self._told():
            return np.asarray(self._file[quantity][place], dtype=np.float32)

    @contextmanager
    def _told(self) -> Iterator[None]:
        """Turn what the library raises on a bad file into one clear line."""
        try:
            yield
        except (OSError, KeyError, ValueError, TypeError, RuntimeError) as error:
            what = f"cannot be read as the heat file of a plan: {_reason(self.path, error)}"
            raise UserError(what, where=str(self.path), todo="make the plan again") from None


def _reason(path: Path, error: Exception) -> str:
    if not path.is_file():
        return "there is no such file"
    if not h5py.is_hdf5(path):
        return "it is no HDF5 file, or was cut off"
    # the library's own words name its inner parts; only ours are meant for the reader
    return str(error) if type(error) is ValueError else "a part of it is missing or broken"


def _refuse_other(schema: str) -> None:
    name, _, version = schema.partition("/")
    if name != _NAME:
        raise ValueError(f"its schema is '{schema}', not {SCHEMA}")
    if version.split(".")[0] != _MAJOR:
        raise ValueError(f"its schema {schema} is newer than this program, which reads {_NAME}/{_MAJOR}.x")
