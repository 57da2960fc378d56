"""The body of a job before it is turned: read, written or measured, and what has to be said about it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pourwright.geometry import Mesh


@dataclass(frozen=True)
class SizeDoubt:
    """How far the volume of a body that was never drawn may lie off.

    Parameters
    ----------
    low, high : float
        Volume that one in ten and nine in ten such bodies stay below [m3].
    why : str
        Where the doubt comes from, most first.
    """

    low: float
    high: float
    why: str


@dataclass(frozen=True, eq=False)
class Mended:
    """What was mended in a file, to be drawn.

    Parameters
    ----------
    words : str
        A sentence.
    places : array (n, 3)
        Where, in the frame of the mesh [m].
    """

    words: str
    places: npt.NDArray[np.float64]


@dataclass(frozen=True)
class Shaped:
    """A body in its own frame.

    Parameters
    ----------
    name : str
        File name, or the key that gives the shape.
    mesh : Mesh
        One closed body [m].
    told : tuple of str
        What was mended or taken for granted, and is to be minded, a sentence each.
    noted : tuple of str
        How the body was drawn, where that does no harm, a sentence each.
    doubt : SizeDoubt, optional
        None where the body is known exactly.
    mended : tuple of Mended
        What was put right in a file.
    """

    name: str
    mesh: Mesh
    told: tuple[str, ...] = ()
    noted: tuple[str, ...] = ()
    doubt: SizeDoubt | None = None
    mended: tuple[Mended, ...] = ()
