"""Liquids, seams and leaks of one mold, before they are put into words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from math import inf

from pourwright.app.molding.look import MoldLook
from pourwright.app.molding.way_out import way_out_of
from pourwright.app.setup import ANY_DAY, climate
from pourwright.foundation.quantities import Dimension
from pourwright.materials import Resin
from pourwright.mold import DEFAULTS as MOLD
from pourwright.mold.seams.box_joints import box_joints, two_pour_joints
from pourwright.mold.seams.defaults import SEAMS
from pourwright.mold.seams.joint import Joint
from pourwright.mold.seams.leaks import LiquidLeaks, leaks_of
from pourwright.mold.seams.liquid import Liquid, mineral_liquid, resin_liquid, rubber_liquid
from pourwright.mold.seams.rubber_joints import cut_joint, line_joint, rod_joint, skin_joints
from pourwright.mold.way_out.places import side_words
from pourwright.mold.ways.defaults import AMOUNTS
from pourwright.mold.ways.facts import opens_along
from pourwright.pour.thickening import thickening


@dataclass(frozen=True, eq=False)
class SeamsFound:
    """The seams of one mold.

    Parameters
    ----------
    joints : tuple of Joint
        All of them.
    liquids : tuple of LiquidLeaks
        Rubber where it is poured, then what is cast.
    """

    joints: tuple[Joint, ...]
    liquids: tuple[LiquidLeaks, ...]

    @property
    def cast(self) -> LiquidLeaks:
        """Of what is cast."""
        return self.liquids[-1]


@lru_cache(maxsize=2)
def seams_of(look: MoldLook) -> SeamsFound:
    """Find the seams of a mold and what leaks there.

    Parameters
    ----------
    look : MoldLook
        The mold.

    Returns
    -------
    SeamsFound
    """
    joints = tuple(_joints(look))
    layer = look.job.limits.liquid_depth
    cast = cast_liquid(look)
    # a slurry is poured in one go; only resin gels pour by pour
    most = layer.si if layer is not None and cast.kind == "resin" else inf
    found = [leaks_of(cast, joints, _allowed(look, cast), most)]
    if look.mold.choices.way != "skin":
        rubber = _rubber(look)
        found.insert(0, leaks_of(rubber, joints, _allowed(look, rubber)))
    return SeamsFound(joints, tuple(found))


def _rubber(look: MoldLook) -> Liquid:
    choices = look.mold.choices
    return rubber_liquid(choices.rubber, look.mold.rubber.mass, choices.works_for)


def cast_liquid(look: MoldLook) -> Liquid:
    """What is cast, as thin as the shop lets it be for longest.

    Parameters
    ----------
    look : MoldLook
        The mold.

    Returns
    -------
    Liquid
    """
    shop = climate(look.job, ANY_DAY)
    if not isinstance(look.casting, Resin):
        poured = look.room_solid.volume * look.casting.wet_density.value
        return mineral_liquid(look.casting, poured, shop.mean, look.densest)
    ways = [thickening(look.casting, kelvin) for kelvin in sorted({min(shop.hourly), shop.warmest})]
    worst = max(ways, key=lambda way: way.until_gel)
    poured = look.fill_mass if look.fill is None else look.fill.resin_in_piece
    return resin_liquid(look.casting, poured, worst.until_gel, float(worst.times[-1]))


def _allowed(look: MoldLook, liquid: Liquid) -> float | None:
    leak = look.job.limits.leak
    if leak is None:
        return None
    return leak.si * liquid.density if leak.dimension is Dimension.VOLUME else leak.si


def _gap(look: MoldLook, default: str) -> float:
    given = look.job.mold.seam_gap
    return SEAMS[default].value if given is None else given.si


def _joints(look: MoldLook) -> Iterator[Joint]:
    way = look.mold.choices.way
    yield from {"block": _block, "two-part": _two_part, "skin": _skin}[way](look)
    if look.hollow is not None and way != "skin":
        yield rod_joint(SEAMS["rod"].value, look.mold.base, look.piece.size[2], _gap(look, "gap_line"))


def _block(look: MoldLook) -> Iterator[Joint]:
    mold = look.mold
    yield from box_joints(
        mold.inside, mold.choices.thickness, mold.pour.level_wanted, _gap(look, "gap_box"), mold.choices.joint
    )
    filled = [(block.lower, block.upper) for block in mold.blocks]
    for cut in way_out_of(look).cuts:
        name = f"cut at {side_words(cut.angle)}"
        yield cut_joint(look.piece.mesh, mold.inside[:2], cut, name, _gap(look, "gap_cut"), filled)


def _two_part(look: MoldLook) -> Iterator[Joint]:
    mold, opens = look.mold, "xy".index(opens_along(look.piece.mesh))
    yield from two_pour_joints(mold.inside, opens, mold.choices.thickness, _gap(look, "gap_box"))
    yield line_joint(look.piece.mesh, mold.inside[:2], mold.base, opens, _gap(look, "gap_line"))


def _skin(look: MoldLook) -> Iterator[Joint]:
    given = look.job.mold.skin
    skin = MOLD["skin"].value if given is None else given.si
    cut = bool(way_out_of(look).cuts)
    yield from skin_joints(
        look.piece.mesh, skin, AMOUNTS["shell_flange"].value, _gap(look, "gap_cut"), cut=cut
    )
