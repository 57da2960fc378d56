"""Shape files: STL, OBJ, PLY, 3MF and GLB become one welded mesh in metres."""

import warnings
from collections.abc import Mapping
from io import BytesIO
from pathlib import Path
from types import MappingProxyType
from typing import Any

import numpy as np

from pourwright.foundation.errors import UserError
from pourwright.geometry.formats import FORMATS, LENGTHS, read_content, unreadable
from pourwright.geometry.mesh import Integers, Mesh
from pourwright.geometry.welding import welded

#: 3MF core specification, attribute ``unit`` of the model -> metres.
_3MF_UNITS: Mapping[str, float] = MappingProxyType(
    {
        "micron": 1e-6, "millimeter": 1e-3, "centimeter": 1e-2, "inch": 0.0254, "foot": 0.3048, "meter": 1.0,
        "millimeters": 1e-3,
    }
)  # fmt: skip
_OPTIONS: Mapping[str, Mapping[str, Any]] = MappingProxyType(
    {".obj": {"split_objects": False, "group_material": False, "skip_materials": True}}
)


def read_mesh(path: Path | str, unit: str | None = None) -> Mesh:
    """Read a shape file.

    Parameters
    ----------
    path : Path or str
        STL (text or binary), OBJ, PLY, 3MF or GLB.
    unit : str, optional
        What one of the file's numbers means: mm, cm, m, in or ft. STL, OBJ and PLY do not say it, so it
        must be stated; 3MF says its own and GLB is in metres, so there it must be left out or agree.

    Returns
    -------
    Mesh
        In metres; axes as in the file, also for GLB, whose programs mostly have +y up; transforms of
        scenes applied, vertices with equal coordinates made one, faces that collapse to a line by that
        left out.

    Raises
    ------
    UserError
        When the unit is missing, unknown or contradicts the file, or the file is missing, empty, cut off,
        of another kind than its ending says, or holds no triangle.

    Notes
    -----
    Source: 3MF Core Specification 1.x, section 3.4 (units); glTF 2.0, section 3.4 (metres); both from memory.
    """
    file = Path(path)
    _check_unit(file, unit)
    ending, content = read_content(file)
    scene = _parsed(file.name, ending, content)
    parts = [part for part in scene.dump(concatenate=False) if hasattr(part, "faces")]
    triangles = sum(len(part.faces) for part in parts)
    if not triangles:
        raise UserError(
            "there is no triangle in the file", where=file.name, todo="export the shape as a mesh"
        )
    scale = _scale(file.name, ending, unit, parts)
    vertices = np.concatenate([np.asarray(part.vertices, dtype=np.float64) for part in parts])
    return welded(Mesh(vertices * scale, _faces_of(file.name, ending, parts)))


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


def _parsed(where: str, ending: str, content: bytes) -> Any:
    import trimesh  # noqa: PLC0415 - half a second that only reading needs

    options: dict[str, Any] = dict(_OPTIONS.get(ending, {}))
    try:
        # a broken file is told in our own words, not by warnings of the parser
        with np.errstate(all="ignore"), warnings.catch_warnings():
            warnings.simplefilter("ignore")
            return trimesh.load_scene(BytesIO(content), file_type=ending[1:], process=False, **options)
    except Exception as failure:  # a foreign parser may raise anything on a broken file
        said = "" if isinstance(failure, LookupError) else f"; the reader says: {failure}"
        reason = f"its content is broken{said}".splitlines()[0][:160]
        raise unreadable(where, FORMATS[ending].name, reason) from failure


def _faces_of(where: str, ending: str, parts: list[Any]) -> Integers:
    """Number the faces of all parts through, and refuse those that name a missing vertex."""
    faces, start = [], 0
    for part in parts:
        corners = np.asarray(part.faces, dtype=np.int64)
        if corners.size and not (corners.min() >= 0 and corners.max() < len(part.vertices)):
            raise unreadable(where, FORMATS[ending].name, "a triangle names a vertex that is not there")
        faces.append(corners + start)
        start += len(part.vertices)
    return np.concatenate(faces)


def _scale(where: str, ending: str, unit: str | None, parts: list[Any]) -> float:
    """Metres in one of the file's numbers."""
    stated = float(LENGTHS[unit]) if unit is not None else None
    if not FORMATS[ending].own_unit:
        assert stated is not None
        return stated
    # trimesh carries the unit along but does not convert
    own = "meter" if ending == ".glb" else str(parts[0].metadata.get("units", "millimeter"))
    if own not in _3MF_UNITS:
        raise UserError(f"the file says its unit is '{own}'", where=where, allowed=", ".join(_3MF_UNITS))
    if stated is not None and stated != _3MF_UNITS[own]:
        raise UserError(f"the file is in {own}, not in {unit}", where=where, todo="leave the unit out")
    return _3MF_UNITS[own]
