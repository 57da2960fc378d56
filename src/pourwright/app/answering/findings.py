"""What a check finds, as far as it is cheap."""

from __future__ import annotations

from pourwright.app.answering.bands import jams_quickly
from pourwright.app.answering.document import FindingTold
from pourwright.app.answering.looked import CheapLook
from pourwright.app.checking import LOOKS, jam_findings, mineral_findings


def findings_told(look: CheapLook) -> tuple[list[FindingTold], bool]:
    """List what a check finds.

    Parameters
    ----------
    look : CheapLook
        The job.

    Returns
    -------
    tuple
        Findings in the order of a check, and whether one of them is not looked for yet.
    """
    if look.setup is None:
        assert look.mix is not None
        pairs = mineral_findings(look.mold_look, look.mix)
        return [FindingTold(level=one.level, section=name, text=one.line) for name, one in pairs], False
    setup, waiting = look.setup, not jams_quickly(look.setup)
    told = [
        FindingTold(level=one.level, section=name, text=one.line)
        for name, find in LOOKS
        if not (waiting and find is jam_findings)
        for one in find(setup)
    ]
    return told, waiting
