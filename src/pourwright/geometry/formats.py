"""What the shape files we read look like from outside: endings, first bytes, units, sizes."""

import re
import struct
import zipfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from io import BytesIO
from pathlib import Path
from types import MappingProxyType

from pourwright.foundation.errors import UserError
from pourwright.foundation.quantities import UNITS, Dimension

#: Units of length a maker may state for a shape file -> metres.
LENGTHS: Mapping[str, Fraction] = MappingProxyType(
    {name: unit.factor for name, unit in UNITS[Dimension.LENGTH].items()}
)
LARGEST_FILE = 500_000_000
LARGEST_UNPACKED = 1_000_000_000


@dataclass(frozen=True, slots=True)
class Format:
    """One kind of shape file.

    Parameters
    ----------
    name : str
        As people call it.
    begins : Callable
        Tells from the first kilobyte that a file is of this kind; a binary STL cannot be told so.
    check : Callable
        Raises ValueError with a reason when the bytes cannot be whole.
    own_unit : bool
        Whether the file itself says what its numbers mean.
    """

    name: str
    begins: Callable[[bytes], bool]
    check: Callable[[bytes], None]
    own_unit: bool = False


def _check_stl(content: bytes) -> None:
    if _is_text_stl(content):
        text = content.lower()
        corners, facets, closed = (text.count(word) for word in (b"vertex", b"endfacet", b"endsolid"))
        if not closed or corners != 3 * facets:
            raise ValueError("it is cut off")
        return
    if len(content) < 84:
        raise ValueError("it is cut off")
    announced = 84 + 50 * struct.unpack_from("<I", content, 80)[0]
    if len(content) < announced:
        raise ValueError(f"it is cut off: {announced} bytes announced, {len(content)} there")
    if len(content) > announced:
        raise ValueError(f"it goes on behind its end: {announced} bytes announced, {len(content)} there")


def _is_text_stl(content: bytes) -> bool:
    head = content[:1024].lstrip().lower()
    return head.startswith(b"solid") and (b"facet" in head or b"endsolid" in head)


def _is_obj(head: bytes) -> bool:
    return head.isascii() and bool(re.search(rb"^\s*v\s", head, re.MULTILINE))


def _check_glb(content: bytes) -> None:
    announced = struct.unpack_from("<I", content, 8)[0] if len(content) >= 12 else 12
    if len(content) < announced:
        raise ValueError(f"it is cut off: {announced} bytes announced, {len(content)} there")


def _check_3mf(content: bytes) -> None:
    try:
        with zipfile.ZipFile(BytesIO(content)) as archive:
            unpacked = sum(entry.file_size for entry in archive.infolist())
            names = [name.lower() for name in archive.namelist()]
    except zipfile.BadZipFile as broken:
        raise ValueError("it is no whole ZIP archive") from broken
    if unpacked > LARGEST_UNPACKED:
        raise ValueError(f"it unpacks to {unpacked / 1e9:.1f} GB, more than {LARGEST_UNPACKED / 1e9:.0f} GB")
    if not any(name.endswith("3d/3dmodel.model") for name in names):
        raise ValueError("there is no 3D model in it")


def _check_ply(content: bytes) -> None:
    header, end, body = content.partition(b"end_header")
    if not end:
        raise ValueError("it is cut off")
    announced = sum(int(count) for count in re.findall(rb"^element\s+\w+\s+(\d+)", header, re.MULTILINE))
    if b"format ascii" in header and len(body.split(b"\n")) - 1 < announced:
        raise ValueError(f"it is cut off: fewer lines than the {announced} announced")


def _check_nothing(_content: bytes) -> None:
    """Leave the judgement to the reader: an OBJ file has no frame that could be checked."""


FORMATS: Mapping[str, Format] = MappingProxyType(
    {
        ".3mf": Format("3MF", lambda head: head.startswith(b"PK\x03\x04"), _check_3mf, own_unit=True),
        ".glb": Format("GLB", lambda head: head.startswith(b"glTF"), _check_glb, own_unit=True),
        ".ply": Format("PLY", lambda head: head.startswith(b"ply"), _check_ply),
        ".obj": Format("OBJ", _is_obj, _check_nothing),
        ".stl": Format("STL", _is_text_stl, _check_stl),
    }
)


def read_content(path: Path) -> tuple[str, bytes]:
    """Read a shape file's bytes and make sure they are what the ending says.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    tuple of str and bytes
        The ending, a key of ``FORMATS``, and the content.

    Raises
    ------
    UserError
        When the file is missing, too large, of another kind, empty or cut off.
    """
    where, ending = path.name, path.suffix.lower()
    if ending not in FORMATS:
        raise UserError(
            f"files ending in '{ending}' are not read", where=where, allowed=", ".join(sorted(FORMATS))
        )
    content = _bytes_of(path)
    if not content:
        raise UserError("the file is empty", where=where)
    expected = FORMATS[ending]
    seen = next((kind for kind in FORMATS.values() if kind.begins(content[:1024])), None)
    if seen not in {None, expected}:
        likely = f"the content looks like {seen.name}, the ending says {expected.name}"
        raise UserError(likely, where=where, todo="give the file the ending of what it is")
    try:
        expected.check(content)
    except ValueError as reason:
        raise unreadable(where, expected.name, str(reason)) from reason
    return ending, content


def unreadable(where: str, name: str, reason: str) -> UserError:
    """Say that a file cannot be read, and why.

    Parameters
    ----------
    where : str
        File name.
    name : str
        Kind of file.
    reason : str
        What is wrong with it.

    Returns
    -------
    UserError
        To be raised.
    """
    return UserError(f"this {name} file cannot be read: {reason}", where=where, todo="export the shape again")


def _bytes_of(path: Path) -> bytes:
    try:
        size = path.stat().st_size
        if size > LARGEST_FILE:
            raise UserError(
                f"the file has {size / 1e6:.0f} MB", where=path.name, allowed=f"{LARGEST_FILE / 1e6:.0f} MB",
                todo="export the shape with fewer triangles",
            )  # fmt: skip
        return path.read_bytes()
    except FileNotFoundError:
        raise UserError("there is no such file", where=str(path)) from None
    except IsADirectoryError:
        raise UserError("this is a folder, not a file", where=str(path)) from None
    except OSError as failure:
        raise UserError(f"it cannot be opened: {failure.strerror}", where=str(path)) from failure
