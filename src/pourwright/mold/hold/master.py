"""The worst moment of a master in liquid rubber, and what must hold it then."""

from __future__ import annotations

from pourwright.mold.choices import MoldChoices
from pourwright.mold.hold.lift import buoyancy, worst_tight
from pourwright.mold.hold.screws import LEAST, Screw, pull_of, screw_through, screws_for
from pourwright.mold.result import HoldDown
from pourwright.mold.rubber import RubberPour
from pourwright.mold.screw_hold import Wood, wood_of
from pourwright.physics.constants import STANDARD_GRAVITY


def hold_down(pour: RubberPour, choices: MoldChoices) -> HoldDown:
    """Find the worst level and what must hold the master there.

    Parameters
    ----------
    pour : RubberPour
        The pour.
    choices : MoldChoices
        Rubber, master, safety factor.

    Returns
    -------
    HoldDown
        Net force = buoyancy - weight where the master is just drowned, since the lift grows with
        the level up to there; weight needed = safety factor * net force / g.

    Notes
    -----
    A screwed master is reckoned as if rubber had crept under it, for that is when it comes loose.
    The push on one that is tight peaks at a level of its own.
    """
    density = choices.rubber.density.value
    mass = choices.mass_of_master(pour.levels.total)
    lift = float(buoyancy(pour, pour.drowned_level, density))
    net = max(lift - mass * STANDARD_GRAVITY, 0.0)
    force, screwed = choices.safety_factor * net, choices.method == "screwed"
    tight = worst_tight(pour, density)
    return HoldDown(
        buoyancy=lift,
        sealed_force=tight.force,
        sealed_level=tight.level,
        master_mass=mass,
        net_force=net,
        worst_level=pour.drowned_level,
        safety_factor=choices.safety_factor,
        weight_needed=force / STANDARD_GRAVITY,
        screws_needed=screws_from_below(force, choices, pour.master_height) if screwed else None,
        bar_load=0.0 if screwed else mass * STANDARD_GRAVITY,
    )


def wood_of_master(choices: MoldChoices) -> Wood:
    """What a screw in the master is in: its board, or its own density where the job gives that."""
    return wood_of(choices.master_board or choices.board, choices.master_density)


def screw_from_below(choices: MoldChoices, height: float) -> Screw:
    """The screw through the base board into a master of a height [m]."""
    thin = Screw(diameter=0.003, length=choices.thickness + LEAST, depth=LEAST)
    return screw_through(choices.thickness, height) or thin


def screws_from_below(force: float, choices: MoldChoices, height: float) -> int:
    """Count screws through the base board.

    Parameters
    ----------
    force : float
        Upward, with its safety factor [N].
    choices : MoldChoices
        Board of the box and of the master.
    height : float
        Of the master [m].

    Returns
    -------
    int
        As many as hold in the edge of its boards, the weaker side.
    """
    return screws_for(force, pull_of(wood_of_master(choices), screw_from_below(choices, height)))
