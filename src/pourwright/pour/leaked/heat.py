"""Heat and cure of what was poured as it was logged, and of a pour on top of it."""

from __future__ import annotations

from collections.abc import Sequence

from pourwright.pour.follow import Followed, Goal, follow
from pourwright.pour.layout import lay_out
from pourwright.pour.rehearse import Planned
from pourwright.pour.site import Site
from pourwright.pour.stages import Stage, add_pour, empty_mold
from pourwright.solver import Control, run

SPACING, ACROSS = 0.025, 12
"""Widest cell [m], and cells across the narrower side of the box, at least."""
CONTROL = Control(tolerance=0.2, max_step=3600.0)


def stood(site: Site, poured: Sequence[Planned], layers: Sequence[float] = ()) -> Stage:
    """Pour what was logged, one after the other, up to the start of the last one.

    Parameters
    ----------
    site : Site
        The casting.
    poured : sequence of Planned
        Levels reached and starts, in order.
    layers : sequence of float
        Heights that cut the pours into thinner layers [m].

    Returns
    -------
    Stage
        With the last of them just gone in, whether or not the one below has gelled.
    """
    spacing = min(SPACING, min(site.block.inside) / ACROSS)
    layout = lay_out(site, spacing, [pour.level for pour in poured], layers=layers)
    stage = empty_mold(layout, poured[0].start)
    for level, start in poured:
        if start > stage.state.time:
            stage = stage.at(run(stage.problem, stage.state, start, control=CONTROL).state)
        stage = add_pour(stage, level)
    return stage


def followed(site: Site, poured: Sequence[Planned], goal: Goal, layers: Sequence[float] = ()) -> Followed:
    """Watch the last of the pours that were logged.

    Parameters
    ----------
    site : Site
        The casting.
    poured : sequence of Planned
        Levels reached and starts, in order.
    goal : Goal
        What to wait for.
    layers : sequence of float
        As `stood`.

    Returns
    -------
    Followed
        Times in seconds after the climate's zero; within some kelvin and a tenth of its times.
    """
    return follow(stood(site, poured, layers), goal, control=CONTROL)
