"""Where a sensor was, in the maker's words."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import parse_quantity
from pourwright.foundation.quantities import Dimension

Point = tuple[float, float, float]
HOTTEST, COOLEST, MIDDLE, TOP, RUBBER, AIR = "hottest", "coolest", "middle", "top", "rubber", "air"
LEFT_OUT = "none"
NAMED = {
    HOTTEST: "the hottest place of the casting",
    COOLEST: "the coolest place of the casting",
    MIDDLE: "the middle of the piece",
    TOP: "the top of what is poured",
    RUBBER: "the casting against the rubber",
    AIR: "the shop's air",
}
"""Places that have a name, with their words."""
LENGTHS = 'a height in the middle, as "45 mm"; three lengths, as "20 mm, 0 mm, 45 mm"'
ALLOWED = f"{', '.join(NAMED)}; {LENGTHS}; none"


@dataclass(frozen=True)
class Place:
    """Where a sensor was.

    Parameters
    ----------
    told : str
        As it is kept: one of `NAMED`, ``none``, or lengths.
    height : float, optional
        Up from the mold's floor in the middle of the piece [m].
    point : tuple of float, optional
        From the middle of the piece, and up from the mold's floor [m].
    """

    told: str
    height: float | None = None
    point: Point | None = None

    @property
    def words(self) -> str:
        """Where it is, for a sentence."""
        if self.point is not None:
            return f"the place {self.told}"
        return f"the middle of the piece, {self.told} up" if self.height is not None else NAMED[self.told]


def read_place(text: str) -> Place:
    """Read where a sensor was.

    Parameters
    ----------
    text : str
        A name of `NAMED`; a height; or lengths to the right of the middle, behind it, and up from the floor.

    Returns
    -------
    Place

    Raises
    ------
    UserError
        For what is none.

    Examples
    --------
    >>> read_place("45 mm").height, read_place("Top").told
    (0.045, 'top')
    >>> read_place("20 mm, 0 mm, 45 mm").point
    (0.02, 0.0, 0.045)
    """
    said = " ".join(text.split())
    if said.casefold() in {*NAMED, LEFT_OUT}:
        return Place(said.casefold())
    try:
        lengths = [_length(part) for part in said.split(",")]
    except UserError:
        lengths = []
    if len(lengths) == 1:
        return Place(said, height=lengths[0])
    if len(lengths) == 3:
        return Place(said, point=(lengths[0], lengths[1], lengths[2]))
    raise UserError(
        f"'{text}' is no place of a sensor", where="--probe", allowed=ALLOWED, todo='as --probe "core=middle"'
    )


def _length(text: str) -> float:
    bare = text.strip()
    if bare.startswith(("-", "−")):
        return -parse_quantity(bare[1:], Dimension.LENGTH, where="--probe").si
    return parse_quantity(bare, Dimension.LENGTH, where="--probe").si
