"""All that is decided about the way out of one mold."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.geometry.ways_up.drafts import Drafts
from pourwright.geometry.ways_up.held import Held
from pourwright.mold.way_out.air import Suction
from pourwright.mold.way_out.bulge import Bulge, Warm
from pourwright.mold.way_out.cut import Cut
from pourwright.mold.way_out.opening import Hinge, Opening, Pull, Soft
from pourwright.mold.way_out.soft import Tongue
from pourwright.physics.rubber_modulus import ModulusBand


@dataclass(frozen=True, slots=True, kw_only=True)
class WayOut:
    """How a piece comes out of a block of rubber, and what that asks of the rubber.

    Parameters
    ----------
    opening : str
        "straight", "stretch", "one cut", "two cuts" or "two parts".
    cuts : tuple of Cut
        None where the rubber stays whole.
    modulus : ModulusBand
        Of the rubber.
    soft : Soft
        What it bears.
    held : tuple of Held
        Rubber in front of the piece, the largest first.
    holes : int
        That go right through the piece.
    drafts : Drafts
        How the surface leans.
    pull : Pull
        Out of rubber that is not cut.
    hinge : Hinge or None
        Of the cuts; None where there are none.
    tongues : tuple of Tongue
        The worst first.
    suction : Suction
        Under the piece.
    bulge : Bulge
        Under the casting.
    warm : Warm
        As the casting warms it.
    """

    opening: Opening
    cuts: tuple[Cut, ...]
    modulus: ModulusBand
    soft: Soft
    held: tuple[Held, ...]
    holes: int
    drafts: Drafts
    pull: Pull
    hinge: Hinge | None
    tongues: tuple[Tongue, ...]
    suction: Suction
    bulge: Bulge
    warm: Warm
