"""Shape files that were handed in and belong to no job yet."""

from __future__ import annotations

import contextlib
import re
import secrets
import shutil
import time
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Any

import numpy as np

from pourwright import cache_folder
from pourwright.foundation.errors import NotThereError, TooMuchError, UserError
from pourwright.foundation.notation import UnitSystem, format_length
from pourwright.geometry import read_shape_file
from pourwright.geometry.files.formats import FORMATS, LENGTHS
from pourwright.runs import do_apart

MB = 1_000_000
KEPT = 24 * 3600
"""How long a file waits for its job [s]."""
_TOKEN = re.compile(r"[0-9a-f]{32}")


@dataclass(frozen=True)
class UploadLimits:
    """What may be handed in.

    Parameters
    ----------
    megabytes : float
        Of the file.
    triangles : int
        In it.
    seconds : float
        It may take to come, and again to be looked through.
    """

    megabytes: float = 200.0
    triangles: int = 4_000_000
    seconds: float = 120.0


USUAL = UploadLimits()


@dataclass(frozen=True)
class Upload:
    """A file that waits for its job.

    Parameters
    ----------
    token : str
        By which it is asked for.
    path : Path
        Where it lies; made of the token and a known ending, never of what somebody wrote.
    """

    token: str
    path: Path


class Receiving:
    """Takes a file bit by bit, and refuses it as soon as it is too much.

    Parameters
    ----------
    name : str
        What the file is called where it comes from; only its ending is used.
    limits : UploadLimits
        How much may come.

    Raises
    ------
    UserError
        For an ending that is not read.
    """

    def __init__(self, name: str, limits: UploadLimits) -> None:
        self._limits = limits
        self._name = name
        ending = _ending(name)
        folder = _fresh_folder()
        self.upload = Upload(folder.name, folder / f"shape{ending}")
        self._file: IO[bytes] = self.upload.path.open("wb")
        self._came = 0
        self._begun = time.monotonic()

    def add(self, content: bytes) -> None:
        """Take the next bit.

        Parameters
        ----------
        content : bytes
            Of the file.

        Raises
        ------
        TooMuchError
            Beyond the limit, of bytes or of time.
        """
        self._came += len(content)
        limits = self._limits
        if self._came > limits.megabytes * MB:
            raise TooMuchError(
                f"'{_shown(self._name)}' is larger than {limits.megabytes:g} MB",
                where="file",
                allowed=f"{limits.megabytes:g} MB",
                todo="export it coarser, or as a binary file: 500,000 triangles are plenty",
            )
        if time.monotonic() - self._begun > limits.seconds:
            raise TooMuchError(
                f"the file has not come within {limits.seconds:g} s", where="file", todo="hand it in again"
            )
        self._file.write(content)

    def end(self) -> Upload:
        """Close the file, whole.

        Returns
        -------
        Upload
        """
        self._file.close()
        return self.upload

    def forget(self) -> None:
        """Close the file and throw it away."""
        self._file.close()
        shutil.rmtree(self.upload.path.parent, ignore_errors=True)


def upload_of(token: str) -> Upload:
    """Find a file that was handed in.

    Parameters
    ----------
    token : str
        As it was given out.

    Returns
    -------
    Upload

    Raises
    ------
    NotThereError
        For anything else.
    """
    if _TOKEN.fullmatch(token):
        for path in _folder().glob(f"{token}/shape.*"):
            return Upload(token, path)
    raise NotThereError("the file is not there any more", where="upload", todo="hand it in again")


def forget_old_uploads() -> None:
    """Throw away what no job was made of in a day."""
    for folder in _folder().glob("*"):
        with contextlib.suppress(OSError):
            if time.time() - folder.stat().st_mtime > KEPT:
                shutil.rmtree(folder, ignore_errors=True)


def look_through(
    upload: Upload, limits: UploadLimits, system: UnitSystem = UnitSystem.METRIC
) -> dict[str, Any]:
    """Say what is in a file that was handed in, before anything is made of it.

    Parameters
    ----------
    upload : Upload
        The file.
    limits : UploadLimits
        How many triangles, and how long it may take.
    system : UnitSystem
        Units of what is said.

    Returns
    -------
    dict
        ``upload`` (its token), ``bytes``, ``triangles``, ``needs_unit``, and ``sizes``: how large it is,
        for each unit that its numbers may be meant in.

    Raises
    ------
    UserError
        For a file that cannot be read.
    TooMuchError
        For too many triangles, and one that takes too long.
    """
    own = FORMATS[upload.path.suffix].own_unit
    try:
        triangles, extent = do_apart(measure_file, str(upload.path), own, seconds=limits.seconds)
    except TimeoutError:
        raise TooMuchError(
            f"reading the file took longer than {limits.seconds:g} s", where="file", todo="export it coarser"
        ) from None
    except (ChildProcessError, MemoryError):
        raise UserError(
            "the file cannot be read", where="file", todo="export it again, as a binary STL"
        ) from None
    if triangles > limits.triangles:
        raise TooMuchError(
            f"{triangles:,} triangles",
            where="file",
            allowed=f"{limits.triangles:,}",
            todo="export it coarser",
        )
    meant = {None: 1.0} if own else {unit: float(factor) * 1000 for unit, factor in LENGTHS.items()}
    sizes = [
        {"unit": unit, "words": _size_words(extent, factor, system), "height_m": extent[2] * factor}
        for unit, factor in meant.items()
    ]
    return {
        "upload": upload.token,
        "bytes": upload.path.stat().st_size,
        "triangles": triangles,
        "needs_unit": not own,
        "sizes": sizes,
    }


def measure_file(path: str, own_unit: object) -> tuple[int, tuple[float, float, float]]:
    """Count triangles and measure the extent of a shape file.

    Parameters
    ----------
    path : str
        The file.
    own_unit : object
        Whether it says its own unit; else its numbers are taken for millimetres.

    Returns
    -------
    tuple
        Triangles, and extent along x, y and z [m].

    Raises
    ------
    UserError
        For a file that cannot be read.
    """
    mesh = read_shape_file(Path(path), None if own_unit else "mm").mesh
    x, y, z = (float(side) for side in np.ptp(mesh.vertices, axis=0))
    return len(mesh.faces), (x, y, z)


def _size_words(extent: tuple[float, float, float], factor: float, system: UnitSystem) -> str:
    return " x ".join(format_length(side * factor, system) for side in extent)


def _ending(name: str) -> str:
    ending = Path(name.replace("\\", "/")).suffix.lower()
    if ending not in FORMATS:
        raise UserError(
            f"'{_shown(name)}' is no shape file that is read",
            where="file",
            allowed=", ".join(sorted(FORMATS)),
            todo="export the shape as STL or 3MF",
        )
    return ending


def _shown(name: str) -> str:
    return name if len(name) <= 60 else f"{name[:57]}..."


def _folder() -> Path:
    return cache_folder() / "uploads"


def _fresh_folder() -> Path:
    folder = _folder() / secrets.token_hex(16)
    folder.mkdir(parents=True)
    return folder
