"""STEP: solids with curved faces, made into flat facets by the library of the extra [step]."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from importlib.util import find_spec
from typing import Protocol, TypeVar

import numpy as np

from pourwright.foundation.errors import UserError
from pourwright.geometry.files.glb_reader import read_glb
from pourwright.geometry.files.parsed import Parsed

T = TypeVar("T")
FINEST, COARSEST = 5e-6, 5e-5
ANGLE = 0.2
_SHARE = 1e-4
# seconds; a file that is understood at all takes one or two a megabyte
_PATIENCE, _PER_MEGABYTE = 4.0, 20.0
_CURVED = re.compile(
    rb"(?:CYLINDRICAL|CONICAL|SPHERICAL|TOROIDAL|BEZIER|B_SPLINE|OFFSET)_SURFACE|SURFACE_OF_(?:LINEAR|REVOLUTION)"
)


class Apart(Protocol):
    """Does something in a process of its own; TimeoutError and ChildProcessError where that fails."""

    def __call__(self, function: Callable[..., T], /, *arguments: object, seconds: float) -> T:
        """Do it."""


def here(function: Callable[..., T], /, *arguments: object, seconds: float) -> T:  # noqa: ARG001 - Apart's names
    """Do something in this process, without a limit: for files that are known to be sound."""
    return function(*arguments)


def is_step(head: bytes) -> bool:
    """Tell from the first kilobyte whether a file is STEP.

    Parameters
    ----------
    head : bytes
        The file's beginning.

    Returns
    -------
    bool
    """
    return b"ISO-10303-21" in head


def facet_tolerance(size: float) -> float:
    """Choose how far flat facets may lie from a curved face.

    Parameters
    ----------
    size : float
        The longest side of the shape [m].

    Returns
    -------
    float
        A ten thousandth of the size, from 0.005 to 0.05 mm [m].

    Notes
    -----
    Facets cut the round of a cylinder of radius r short by 4/3 of the tolerance over r (the sagitta of a
    regular polygon, to first order): 0.03 % of the volume where the cylinder is as thick as the shape is
    long, a tenth of what a kitchen scale can tell. 0.05 mm is less than any sanding takes away.

    Examples
    --------
    >>> facet_tolerance(0.1)
    1e-05
    """
    return float(np.clip(_SHARE * size, FINEST, COARSEST))


def read_step(content: bytes, apart: Apart = here) -> Parsed:
    """Read a STEP file: all solids of all its parts, where its assembly puts them.

    Parameters
    ----------
    content : bytes
        The file.
    apart : Apart
        Does the reading; the library breaks down or hangs on some broken files.

    Returns
    -------
    Parsed
        In metres, with what was taken for granted.

    Raises
    ------
    ValueError
        Where there is nothing to read in it, or the library breaks down, hangs or swells on it.
    UserError
        Where the library is not there.
    """
    if find_spec("cascadio") is None:
        raise UserError(
            "STEP files need a library that is not installed",
            todo="install it with: pip install 'pourwright[step]', or save the shape as STL",
        )
    if b"END-ISO-10303-21" not in content[-4096:]:
        raise ValueError("it is cut off")
    rough = _solids(content, COARSEST, apart)
    size = float(np.ptp(rough.vertices, axis=0).max()) if rough.count else 0.0
    tolerance = facet_tolerance(size)
    if not _CURVED.search(content):
        return rough
    told = f"curved faces are flat facets within {1e3 * tolerance:.2g} mm of them"
    fine = rough if tolerance >= COARSEST else _solids(content, tolerance, apart)
    return replace(fine, told=(told,))


def _solids(content: bytes, tolerance: float, apart: Apart) -> Parsed:
    import cascadio  # noqa: PLC0415 - an extra, and a third of a second

    seconds = _PATIENCE + _PER_MEGABYTE * len(content) / 1e6
    # the library counts its tolerance in millimetres whatever the file's unit; the last three: the tolerance
    # is no share of an edge, one mesh per part, one thread
    wanted = ("step", 1e3 * tolerance, ANGLE, False, True, False)
    try:
        scene = apart(cascadio.load, content, *wanted, seconds=seconds)
    except TimeoutError:
        raise ValueError(f"its solids were not understood within {seconds:.0f} s") from None
    except ChildProcessError:
        raise ValueError("its solids are broken: the reader broke down over them") from None
    if not scene:
        raise ValueError("there is no solid in it that could be understood")
    return read_glb(scene)
