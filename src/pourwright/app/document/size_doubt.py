"""What a doubtful size of the piece means for what must stand ready."""

from __future__ import annotations

from pourwright.app.shaping.piece import PieceRead
from pourwright.app.shaping.size_words import allowance_words
from pourwright.fill import DEFAULTS
from pourwright.foundation.notation import UnitSystem
from pourwright.jobs.job import Job


def ready_words(piece: PieceRead, job: Job) -> list[str]:
    """Say how much more must stand ready, and whether the allowance covers it.

    Parameters
    ----------
    piece : PieceRead
        With the doubt of its volume.
    job : Job
        With its allowance.

    Returns
    -------
    list of str
        One sentence; none where the body is known exactly.
    """
    given = job.fill.allowance
    share = DEFAULTS["allowance"].value if given is None else given
    return list(allowance_words(piece.doubt, piece.solid.volume, share, UnitSystem(job.units)))
