"""The body of a job before it is turned: read, written or measured, and what has to be said about it."""

from __future__ import annotations

from dataclasses import dataclass

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
        What was mended or taken for granted, a sentence each.
    doubt : SizeDoubt, optional
        None where the body is known exactly.
    """

    name: str
    mesh: Mesh
    told: tuple[str, ...] = ()
    doubt: SizeDoubt | None = None
