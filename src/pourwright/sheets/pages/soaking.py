"""What a ticket says of resin that runs down through dry glass."""

from __future__ import annotations

from pourwright.foundation.notation import format_fine_length
from pourwright.jobs.plan import Pour
from pourwright.sheets.wording import Wording


def soak_lines(pour: Pour, words: Wording) -> list[str]:
    """Say how to pour over dry glass, how long the resin needs, and which bubbles come up.

    Parameters
    ----------
    pour : Pour
        Of the plan.
    words : Wording
        The maker's units.

    Returns
    -------
    list of str
        One line; none where the pour has no dry glass.
    """
    if pour.soak_limit_h is None:
        return []
    limit = words.duration(pour.soak_limit_h)
    if pour.soaks_after_h is None:
        return [f"It does not get through the glass: too thick after {limit}. Pour less deep, or warmer."]
    after = words.duration(pour.soaks_after_h)
    line = (
        f"Pour evenly over the glass, slowly: about {after} after mixing it is down, after {limit} too thick."
    )
    return [f"{line}{_bubbles(pour, words)}"]


def _bubbles(pour: Pour, words: Wording) -> str:
    if pour.bubbles_from_m is None:
        return ""
    size = format_fine_length(pour.bubbles_from_m, words.system)
    return f" Bubbles of {size} and more still come up where the grains let them."
