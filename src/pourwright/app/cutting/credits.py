"""Which sources a cut list used, found by looking at every number it was made from."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.cutting.look import CutLook
from pourwright.app.document.credits import listed, numbers_of
from pourwright.foundation.sources import Sourced
from pourwright.jobs.plan import SourceUsed
from pourwright.mold.blocks.defaults import BLOCKS
from pourwright.mold.box.defaults import BOX
from pourwright.mold.wood.defaults import WOOD
from pourwright.mold.wood.master_coats import FILM

MODELS = {
    "timoshenko-plates-1959": "how far panels bend, and so which battens",
    "wood-handbook": "what pulls a screw out",
    "hicks-2002": "what a screw bears sideways",
}
"""Published equations by their source, and what they were used for."""


def cut_sources(look: CutLook) -> list[SourceUsed]:
    """List every source of a number or an equation in a cut list.

    Parameters
    ----------
    look : CutLook
        With its parts.

    Returns
    -------
    list of SourceUsed
        One line per source and kind, with what it was used for.
    """
    return listed(_numbers(look), MODELS)


def _numbers(look: CutLook) -> Iterator[tuple[str, Sourced]]:
    for board in {part.board.id: part.board for part in look.parts}.values():
        yield from numbers_of(board, f"{board.name} ")
    for of, table in (("box", BOX), ("saw", WOOD), ("space block", BLOCKS)):
        yield from ((f"{of} {name}".replace("_", " "), number) for name, number in table.items())
    yield "sealer in one coat", FILM
