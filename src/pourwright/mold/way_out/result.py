"""All that is decided about the way out of one mold."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.geometry.mesh import Floats
from pourwright.geometry.ways_up.drafts import Drafts
from pourwright.geometry.ways_up.held import Held
from pourwright.mold.way_out.air import Suction
from pourwright.mold.way_out.bulge import Bulge
from pourwright.mold.way_out.cut import Cut
from pourwright.mold.way_out.inlets import Inlet
from pourwright.mold.way_out.opening import Hinge, Opening
from pourwright.mold.way_out.pull import Pull
from pourwright.mold.way_out.soft import Soft, Tongue
from pourwright.mold.way_out.warm import Warm
from pourwright.physics.rubber_modulus import ModulusBand


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WayOut:
    """How a piece comes out of a block of rubber, and what that asks of the rubber.

    Parameters
    ----------
    inside : tuple of float
        Of the box along x and y [m].
    blocks : int
        Space blocks in the rubber.
    opening : str
        "straight", "stretch", "one cut", "two cuts" or "two parts".
    cuts : tuple of Cut
        None where the rubber stays whole.
    modulus : ModulusBand
        Of the rubber.
    soft : Soft
        What it bears.
    held : tuple of Held
        Rubber in front of the piece that hangs together with the block, the largest first.
    plugs : tuple of Held
        Rubber in hollows of the piece that open upward: loose bodies that come out with it.
    cores : tuple of Held
        Rubber that stands in hollows of the piece that open downward.
    holes : int
        That go right through the piece.
    drafts : Drafts
        How the surface leans.
    leans : array (m,)
        Of every face of the piece; below 0 it is undercut, not a number where it touches no rubber [deg].
    pull : Pull
        Out of rubber that is not cut.
    hinge : Hinge or None
        Of the cuts; None where there are none.
    book : Hinge
        Of one cut, wherever that is the choice or not.
    tongues : tuple of Tongue
        The worst first.
    suction : Suction
        Under the piece.
    inlets : tuple of Inlet
        Where air is let in.
    bulge : Bulge
        Under the casting.
    warm : Warm
        As the casting warms it.
    lines : tuple of array (k, 3)
        Where each cut meets the piece, from below upward [m].
    """

    inside: tuple[float, float]
    blocks: int
    opening: Opening
    cuts: tuple[Cut, ...]
    modulus: ModulusBand
    soft: Soft
    held: tuple[Held, ...]
    plugs: tuple[Held, ...]
    cores: tuple[Held, ...]
    holes: int
    drafts: Drafts
    leans: Floats
    pull: Pull
    hinge: Hinge | None
    book: Hinge
    tongues: tuple[Tongue, ...]
    suction: Suction
    inlets: tuple[Inlet, ...]
    bulge: Bulge
    warm: Warm
    lines: tuple[Floats, ...]
