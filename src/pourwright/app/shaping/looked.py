"""A body that somebody wants to know everything about."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.app.shaping.piece import PieceRead
from pourwright.app.shaping.shaped import Shaped
from pourwright.foundation.notation import UnitSystem
from pourwright.jobs.job import Job


@dataclass(frozen=True)
class Looked:
    """What every look at a shape starts from.

    Parameters
    ----------
    shaped : Shaped
        In its own frame.
    piece : PieceRead
        Turned the way it is poured, and measured.
    system : UnitSystem
        Of what is printed.
    job : Job, optional
        Where the shape stands in one.
    """

    shaped: Shaped
    piece: PieceRead
    system: UnitSystem
    job: Job | None = None
