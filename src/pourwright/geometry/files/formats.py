"""What the shape files we read look like from outside: endings, first bytes, units, sizes."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from types import MappingProxyType

from pourwright.foundation.errors import UserError
from pourwright.foundation.quantities import UNITS, Dimension
from pourwright.geometry.files.obj_reader import is_obj
from pourwright.geometry.files.step_reader import is_step
from pourwright.geometry.files.stl_reader import is_text_stl

#: Units of length a maker may state for a shape file -> metres.
LENGTHS: Mapping[str, Fraction] = MappingProxyType(
    {name: unit.factor for name, unit in UNITS[Dimension.LENGTH].items()}
)
LARGEST_FILE = 500_000_000


@dataclass(frozen=True, slots=True)
class Format:
    """One kind of shape file.

    Parameters
    ----------
    name : str
        As people call it.
    begins : Callable
        Tells from the first kilobyte that a file is of this kind; a binary STL cannot be told so.
    own_unit : bool
        Whether the file itself says what its numbers mean.
    """

    name: str
    begins: Callable[[bytes], bool]
    own_unit: bool = False


_STEP = Format("STEP", is_step, own_unit=True)
FORMATS: Mapping[str, Format] = MappingProxyType(
    {
        ".3mf": Format("3MF", lambda head: head.startswith(b"PK\x03\x04"), own_unit=True),
        ".glb": Format("GLB", lambda head: head.startswith(b"glTF"), own_unit=True),
        ".ply": Format("PLY", lambda head: head.startswith(b"ply")),
        ".step": _STEP,
        ".stp": _STEP,
        ".obj": Format("OBJ", is_obj),
        ".stl": Format("STL", is_text_stl),
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
        When the file is missing, too large, of another kind or empty.
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
    if not expected.begins(content[:1024]):
        seen = next((kind for kind in FORMATS.values() if kind.begins(content[:1024])), None)
        if seen is not None:
            likely = f"the content looks like {seen.name}, the ending says {expected.name}"
            raise UserError(likely, where=where, todo="give the file the ending of what it is")
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
