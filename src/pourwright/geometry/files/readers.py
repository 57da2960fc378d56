"""Shape files: STL, OBJ, PLY, 3MF, GLB and STEP become one welded mesh in metres."""

import struct
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

import numpy as np

from pourwright.foundation.errors import UserError
from pourwright.geometry.files.formats import FORMATS, LENGTHS, read_content, unreadable
from pourwright.geometry.files.glb_reader import read_glb
from pourwright.geometry.files.obj_reader import read_obj
from pourwright.geometry.files.parsed import Parsed
from pourwright.geometry.files.ply_reader import read_ply
from pourwright.geometry.files.step_reader import Apart, here, read_step
from pourwright.geometry.files.stl_reader import read_stl
from pourwright.geometry.files.threemf_reader import read_threemf
from pourwright.geometry.files.threemf_tables import Table
from pourwright.geometry.mesh import Mesh
from pourwright.geometry.welding import numbered, whole_faces

#: 3MF core specification, attribute ``unit`` of the model -> metres.
_OWN_UNITS: Mapping[str, float] = MappingProxyType(
    {
        "micron": 1e-6, "millimeter": 1e-3, "centimeter": 1e-2, "inch": 0.0254, "foot": 0.3048, "meter": 1.0,
        "millimeters": 1e-3,
    }
)  # fmt: skip
_SAMPLES: tuple[tuple[str, bytes], ...] = (
    (".obj", b"v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n"),
    (".stl", b"solid\nfacet\nvertex 0 0 0\nvertex 1 0 0\nvertex 0 1 0\nendfacet\nendsolid\n"),
    (".stl", bytes(80) + struct.pack("<I12fH", 1, *(0, 0, 1, 0, 0, 0, 1, 0, 0, 0, 1, 0), 0)),
    (
        ".ply",
        (
            b"ply\nformat ascii 1.0\nelement vertex 3\nproperty float x\nproperty float y\nproperty float z\n"
            b"element face 1\n"
            b"property list uchar int vertex_index\nend_header\n0 0 0\n1 0 0\n0 1 0\n3 0 1 2\n"
        ),
    ),
)
_READERS: Mapping[str, Callable[[bytes], Parsed]] = MappingProxyType(
    {".3mf": read_threemf, ".glb": read_glb, ".obj": read_obj, ".ply": read_ply, ".stl": read_stl}
)
_FURTHEST = 1e12
# what a description of the wrong shape raises, where no check of ours was first
_BROKEN = (LookupError, TypeError, AttributeError, OverflowError, RecursionError, struct.error)


@dataclass(frozen=True, slots=True)
class ShapeFile:
    """What a shape file holds.

    Parameters
    ----------
    mesh : Mesh
        Welded, in metres.
    told : tuple of str
        What was left out or taken for granted.
    """

    mesh: Mesh
    told: tuple[str, ...] = ()


def read_mesh(path: Path | str, unit: str | None = None) -> Mesh:
    """Read the mesh of a shape file.

    Parameters
    ----------
    path, unit
        As in `read_shape_file`.

    Returns
    -------
    Mesh

    Raises
    ------
    UserError
        As `read_shape_file`.
    """
    return read_shape_file(path, unit).mesh


def read_shape_file(path: Path | str, unit: str | None = None, apart: Apart = here) -> ShapeFile:
    """Read a shape file.

    Parameters
    ----------
    path : Path or str
        STL (text or binary), OBJ, PLY, 3MF, GLB or STEP.
    unit : str, optional
        What one of the file's numbers means: mm, cm, m, in or ft. STL, OBJ and PLY do not say it, so it
        must be stated; 3MF and STEP say their own and GLB is in metres: leave it out there, or let it agree.
    apart : Apart
        Does in a process of its own what foreign code does: reading STEP.

    Returns
    -------
    ShapeFile
        In metres; axes as in the file, also for GLB, whose programs mostly have +y up; transforms of
        scenes applied, vertices with equal coordinates made one, faces that collapse to a line by that
        left out.

    Raises
    ------
    UserError
        When the unit is missing, unknown or contradicts the file, or the file is missing, empty, cut off,
        of another kind than its ending says, needs what is not read, or holds no triangle.

    Notes
    -----
    Source: 3MF Core Specification 1.x, section 3.4 (units); glTF 2.0, section 3.4 (metres); both from memory.
    """
    file = Path(path)
    _check_unit(file, unit)
    ending, content = read_content(file)
    parsed = _parsed(file.name, ending, content, apart)
    if not parsed.count:
        raise UserError(
            "there is no triangle in the file", where=file.name, todo="export the shape as a mesh"
        )
    return ShapeFile(_mesh(parsed, _scale(file.name, ending, unit, parsed.unit)), parsed.told)


def read_samples() -> None:
    """Read the smallest file of each kind that compiled loops read."""
    for ending, content in _SAMPLES:
        _mesh(_READERS[ending](content), 1e-3)
    Table("vertex").add_plain(b'<vertex x="0" y="0" z="0"/>')


def _check_unit(file: Path, unit: str | None) -> None:
    ending = file.suffix.lower()
    allowed = ", ".join(LENGTHS)
    todo = "add --unit mm, or what it is"
    if unit is not None and unit not in LENGTHS:
        raise UserError(f"'{unit}' is no unit of length", where=file.name, allowed=allowed, todo=todo)
    if unit is None and ending in FORMATS and not FORMATS[ending].own_unit:
        name = FORMATS[ending].name
        raise UserError(
            f"{name} files carry no unit, so it must be stated",
            where=file.name,
            allowed=allowed,
            todo=todo,
        )


def _parsed(where: str, ending: str, content: bytes, apart: Apart) -> Parsed:
    name = FORMATS[ending].name
    try:
        # numbers that are none, or too large, are told by whoever judges the mesh
        with np.errstate(all="ignore"):
            return _READERS[ending](content) if ending in _READERS else read_step(content, apart)
    except UserError as error:
        raise UserError(error.what, where=where, allowed=error.allowed, todo=error.todo) from None
    except MemoryError:
        raise unreadable(where, name, "it needs more memory than there is") from None
    except ValueError as reason:
        raise unreadable(where, name, " ".join(str(reason).split())[:200]) from reason
    except _BROKEN as failure:
        raise unreadable(where, name, "its content is broken") from failure


def _mesh(parsed: Parsed, scale: float) -> Mesh:
    """Weld, and turn the file's numbers into metres."""
    points = np.asarray(parsed.vertices)
    with np.errstate(all="ignore"):
        if points.dtype != np.float32:
            points = points * scale
        # single precision is welded as it is: half the memory, and scaling keeps apart what was apart
        first, number = numbered(points)
        points = points[first] if points.dtype != np.float32 else points[first].astype(np.float64) * scale
        # the square of a length must stay a number
        points[np.abs(points) > _FURTHEST] = np.inf
    faces = number.reshape(-1, 3) if parsed.faces is None else number[parsed.faces]
    return Mesh(points, whole_faces(faces))


def _scale(where: str, ending: str, unit: str | None, own: str) -> float:
    """Metres in one of the file's numbers."""
    stated = float(LENGTHS[unit]) if unit is not None else None
    if not FORMATS[ending].own_unit:
        assert stated is not None
        return stated
    if own not in _OWN_UNITS:
        raise UserError(f"the file says its unit is '{own[:30]}'", where=where, allowed=", ".join(_OWN_UNITS))
    if stated is not None and stated != _OWN_UNITS[own]:
        raise UserError(f"the file is in {own}, not in {unit}", where=where, todo="leave the unit out")
    return _OWN_UNITS[own]
