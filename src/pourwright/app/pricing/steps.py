"""Steps of the work: what each is called, what it is done for, and its lines in a plan's calendar."""

from __future__ import annotations

import re
from dataclasses import dataclass

from pourwright.costing.lines import Stage

HOUR = 3600.0
OTHER = "other"


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the work.

    Parameters
    ----------
    key : str
        As under [work].
    stage : str
        What it is done for.
    words : str
        As the cost has it.
    titles : str
        Pattern of its titles in the plan's calendar; empty where it is not in there.
    """

    key: str
    stage: Stage
    words: str
    titles: str = ""


_COATS = r"Seal the master|(Lay|Look at) the test patch|Release on"
STEPS = (
    Step("make_mold", "mold", "box and blocks, seams, turning over, cutting open"),
    Step("coat_master", "mold", "seal and release the master, test patch", _COATS),
    Step("pour_rubber", "mold", "pour the rubber", r"Pour the rubber"),
    Step("take_master_out", "mold", "take the master out", r"Take the master out"),
    Step("crush", "casting", "soak and crush bottles", r"Soak the bottles|Crush "),
    Step("wash", "casting", "wash the glass", r"Wash the glass"),
    Step("lay", "casting", "lay the glass in", r"Lay the glass"),
    Step("check", "casting", "go through the list before mixing", r"Go/no-go"),
    Step("pour", "casting", "weigh, mix and pour", r"Pour \d+ of"),
    Step("look", "casting", "look for leaks, touch the tops", r"Look at pour|Is pour \d+ gelled"),
    Step("sand_between", "casting", "wash and sand tops between pours", r"Wash and sand pour"),
    Step("demold", "casting", "demold", r"Demold"),
    Step(OTHER, "casting", "other work in the calendar"),
    Step("close_mold", "casting", "clean and close the mold again"),
)
"""In their order; a title belongs to the first whose pattern it begins with."""


def step_of(title: str) -> str:
    """Which step a line of the calendar belongs to.

    Examples
    --------
    >>> step_of("Pour 2 of 4"), step_of("Pour the rubber, at the latest"), step_of("Sweep the shop")
    ('pour', 'pour_rubber', 'other')
    """
    return next((step.key for step in STEPS if step.titles and re.match(step.titles, title)), OTHER)
