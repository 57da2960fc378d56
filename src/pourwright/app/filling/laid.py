"""Bands, glass and resin of a job as they are laid, as part of the fill's document."""

from __future__ import annotations

from pourwright.app.document.parts import fill_part
from pourwright.app.filling.look import FillLook
from pourwright.foundation.progress import Progress
from pourwright.jobs.plan import Fill


def laid_look(look: FillLook, progress: Progress) -> Fill | None:
    """Weigh every band.

    Parameters
    ----------
    look : FillLook
        The fill.
    progress : Progress
        Not needed: it takes a moment.

    Returns
    -------
    plan.Fill or None
        None for a casting material mixed with water.
    """
    del progress
    return None if look.setup is None else fill_part(look.setup)
