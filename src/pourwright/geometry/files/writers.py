"""A mesh as a file that other programs read: binary STL and 3MF, the same bytes for the same body."""

import zipfile
from collections.abc import Mapping
from io import BytesIO
from xml.sax.saxutils import escape, quoteattr

import numpy as np

from pourwright.geometry.mesh import Floats, Integers, Mesh

_STL_HEADER = b"binary STL, numbers in millimetres".ljust(80)
_FACET = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
_XML = '<?xml version="1.0" encoding="UTF-8"?>\n'
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_MODEL_TYPE = "application/vnd.ms-package.3dmanufacturing-3dmodel+xml"
_MODEL_SPACE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
_MODEL_RELATION = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"
_CONTENT_TYPES = f"""{_XML}<Types xmlns="{_PACKAGE}/content-types">
 <Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
 <Default Extension="model" ContentType="{_MODEL_TYPE}"/>
</Types>
"""
_RELATIONS = f"""{_XML}<Relationships xmlns="{_PACKAGE}/relationships">
 <Relationship Target="/3D/3dmodel.model" Id="rel0" Type="{_MODEL_RELATION}"/>
</Relationships>
"""
_MODEL = f"""{_XML}<model unit="millimeter" xml:lang="en" xmlns="{_MODEL_SPACE}">
 <metadata name="Title">%s</metadata>
 <resources>
%s
 </resources>
 <build>%s</build>
</model>
"""
_OBJECT = """  <object id="%d" type="model"%s><mesh>
<vertices>
%s
</vertices>
<triangles>
%s
</triangles>
  </mesh></object>"""
# the first day that a ZIP archive can hold
_ALWAYS = (1980, 1, 1, 0, 0, 0)


def stl_bytes(mesh: Mesh) -> bytes:
    """Write a mesh as binary STL, its numbers in millimetres.

    Parameters
    ----------
    mesh : Mesh
        Any mesh [m].

    Returns
    -------
    bytes
        84 bytes and 50 more for every triangle; coordinates in single precision, no date.

    Notes
    -----
    Source: the binary form of STL as commonly described, 3D Systems 1989; from memory.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> len(stl_bytes(box([0.1, 0.1, 0.1])))
    684
    """
    facets = np.zeros(len(mesh.faces), dtype=_FACET)
    facets["corners"] = 1e3 * mesh.triangles
    areas = mesh.area_vectors
    lengths = np.linalg.norm(areas, axis=1, keepdims=True)
    facets["normal"] = np.divide(areas, lengths, out=np.zeros_like(areas), where=lengths > 0)
    return _STL_HEADER + np.uint32(len(facets)).tobytes() + facets.tobytes()


def threemf_bytes(mesh: Mesh, title: str) -> bytes:
    """Write a mesh as a 3MF package, its numbers in millimetres.

    Parameters
    ----------
    mesh : Mesh
        Any mesh whose coordinates are numbers [m].
    title : str
        What the model is called in it.

    Returns
    -------
    bytes
        A ZIP archive of one model with one object; coordinates to nine digits, no date.

    Notes
    -----
    Source: 3MF Core Specification 1.3, sections 2 to 4; from memory.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> threemf_bytes(box([0.1, 0.1, 0.1]), "a box")[:2]
    b'PK'
    """
    return _package(title, [_object(1, "", mesh)])


def threemf_of_bodies(bodies: Mapping[str, Mesh], title: str) -> bytes:
    """Write several bodies as one 3MF package, each an object with its name, in millimetres.

    Parameters
    ----------
    bodies : mapping
        Meshes by name, at least one; their coordinates are numbers [m].
    title : str
        What the model is called in it.

    Returns
    -------
    bytes
        A ZIP archive of one model; every object is built once, where it is.

    Notes
    -----
    Source: 3MF Core Specification 1.3, section 4.1 (objects, their names) and 3.4.3 (items); from memory.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> one, other = box([0.1, 0.1, 0.1]), box([0.1, 0.1, 0.1]).moved([0.2, 0.0, 0.0])
    >>> threemf_of_bodies({"one": one, "other": other}, "two boxes")[:2]
    b'PK'
    """
    return _package(title, [_object(n, name, mesh) for n, (name, mesh) in enumerate(bodies.items(), 1)])


def _object(number: int, name: str, mesh: Mesh) -> str:
    corners = _rows('<vertex x="%.9g" y="%.9g" z="%.9g"/>', 1e3 * mesh.vertices)
    triangles = _rows('<triangle v1="%d" v2="%d" v3="%d"/>', mesh.faces)
    called = f" name={quoteattr(_printable(name))}" if name else ""
    return _OBJECT % (number, called, corners, triangles)


def _package(title: str, objects: list[str]) -> bytes:
    items = "".join(f'<item objectid="{number}"/>' for number in range(1, len(objects) + 1))
    parts = {
        "[Content_Types].xml": _CONTENT_TYPES,
        "_rels/.rels": _RELATIONS,
        "3D/3dmodel.model": _MODEL % (escape(_printable(title)), "\n".join(objects), items),
    }
    package = BytesIO()
    with zipfile.ZipFile(package, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, text in parts.items():
            entry = zipfile.ZipInfo(name, _ALWAYS)
            entry.compress_type = zipfile.ZIP_DEFLATED
            archive.writestr(entry, text.encode())
    return package.getvalue()


def _printable(text: str) -> str:
    """Leave out what XML cannot hold."""
    return "".join(letter for letter in text if letter.isprintable())


def _rows(row: str, numbers: Floats | Integers) -> str:
    return "\n".join([row] * len(numbers)) % tuple((numbers + 0).ravel().tolist())
