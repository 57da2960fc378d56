"""The space blocks of a job: boards, places, screws, coats, and what they save."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from pourwright.app.molding.blocks_words import cautions, coats_words, words, worth_words
from pourwright.app.molding.look import MoldLook
from pourwright.foundation.progress import Progress
from pourwright.jobs.mold_blocks import BlockPanel, MoldBlock, MoldBlocks
from pourwright.mold import MoldResult
from pourwright.mold.blocks.asked import blocks_asked, room_of
from pourwright.mold.blocks.bound import most_wood
from pourwright.mold.blocks.defaults import BLOCKS
from pourwright.mold.blocks.glue_up import glue_up
from pourwright.mold.blocks.hold import load_on, pull_on_screws, screws_chosen
from pourwright.mold.blocks.letter import letter
from pourwright.mold.blocks.marks import Mark, PanelFace, mark_of, panel_face
from pourwright.mold.blocks.saving import board_area, saving_of
from pourwright.mold.blocks.twins import first_screw, twins_of
from pourwright.mold.space_block import SpaceBlock, Wall
from pourwright.mold.ways.defaults import AMOUNTS

HOUR = 3600.0
ORDER: tuple[Wall, ...] = ("front", "back", "left", "right", "base")


def blocks_look(look: MoldLook, progress: Progress) -> MoldBlocks | None:
    """Tell the space blocks.

    Parameters
    ----------
    look : MoldLook
        The mold.
    progress : Progress
        Not needed: it takes a few seconds.

    Returns
    -------
    MoldBlocks or None
        None where the job asks for none: the table of ways says what they would save.
    """
    del progress
    choices = look.mold.choices
    if not choices.space_blocks or choices.way != "block":
        return None
    placed = Placed(look.mold)
    made, saved = placed.mold.blocks, saving_of(placed.mold.blocks, choices)
    asked = blocks_asked(look.piece.mesh, look.mold.inside, choices)
    bound = most_wood(room_of(asked), max(len(made), 1), saved.volume)
    wood = board_area(made, choices.block_stock)
    sheet = None if look.job.prices is None or look.job.prices.board is None else look.job.prices.board.si
    money = {
        "prices.rubber": saved.rubber_money,
        "prices.hour": saved.sawing_money,
        "prices.board": None if sheet is None else wood / AMOUNTS["sheet"].value * sheet,
    }
    rubber, sawing, boards = money.values()
    full = None if rubber is None or sawing is None or boards is None else rubber - sawing - boards
    told = [_told(placed, number) for number in range(len(made))]
    return MoldBlocks(
        board=choices.block_board.name,
        stock_m=list(choices.block_stock),
        least_m=choices.blocks.least,
        most=choices.blocks.most,
        wall_m=choices.wall,
        base_m=choices.base,
        worth_m3=asked.worth,
        worth_by=worth_words(choices),
        blocks=told,
        panels=_panels(placed, told),
        volume_m3=saved.volume,
        rubber_kg=saved.rubber,
        rubber_money=rubber,
        sawing_h=saved.sawing / HOUR,
        sawing_money=sawing,
        wood_m2=wood,
        wood_money=boards,
        saves_money=full,
        missing=[name for name, amount in money.items() if amount is None],
        currency=None if look.job.prices is None else look.job.prices.currency,
        bound_m3=bound,
        share=saved.volume / bound if bound else None,
        screw_diameter_m=BLOCKS["screw_diameter"].value,
        safety_factor=choices.safety_factor,
        sealed=coats_words(look),
        words=list(words(look, bound)),
        cautions=list(cautions(look)),
    )


@dataclass(frozen=True)
class Placed:
    """The blocks of a mold with their panels.

    Parameters
    ----------
    mold : MoldResult
        With its blocks.
    """

    mold: MoldResult

    @cached_property
    def faces(self) -> dict[Wall, PanelFace]:
        """Panels that hold blocks."""
        held = {block.wall for block in self.mold.blocks}
        return {wall: panel_face(self.mold, wall) for wall in ORDER if wall in held}

    @cached_property
    def twins(self) -> list[list[int]]:
        """Of each block, those of its size."""
        return twins_of([block.size for block in self.mold.blocks])

    def mark(self, block: SpaceBlock) -> Mark:
        """Where a block sits on its panel."""
        return mark_of(block, self.faces[block.wall])


def _told(placed: Placed, number: int) -> MoldBlock:
    choices, block = placed.mold.choices, placed.mold.blocks[number]
    glued, mark = glue_up(block.size, choices.block_stock), placed.mark(block)
    density = choices.block_board.density.value
    load = load_on(block.volume, density, choices.rubber.density.value)
    force = choices.safety_factor * pull_on_screws(load, mark.size, upright=block.wall != "base")
    screws = screws_chosen(choices, block, mark.size)
    saved, twins = saving_of([block], choices), placed.twins[number]
    short, long = sorted(side for axis, side in enumerate(block.size) if axis != glued.axis)
    return MoldBlock(
        letter=letter(number),
        size_m=mark.size,
        layers=glued.layers,
        board_m=glued.board,
        board_size_m=(long, short),
        wall=block.wall,
        panel=placed.faces[block.wall].name,
        left_m=mark.left,
        foot_m=mark.foot,
        volume_m3=block.volume,
        lift_N=load.lift,
        bears_N=force,
        screws=screws.number,
        screw_bears_N=screws.bears,
        screw_length_m=screws.length,
        first_screw_m=first_screw(number, twins) * max(mark.size[:2]),
        twins=[letter(twin) for twin in twins],
        rubber_kg=saved.rubber,
        rubber_money=saved.rubber_money,
        sawing_h=saved.sawing / HOUR,
        sawing_money=saved.sawing_money,
    )


def _panels(placed: Placed, told: list[MoldBlock]) -> list[BlockPanel]:
    return [
        BlockPanel(
            wall=wall,
            name=face.name,
            width_m=face.width,
            height_m=face.height,
            lap_m=face.lap,
            letters=[block.letter for block in told if block.wall == wall],
        )
        for wall, face in placed.faces.items()
    ]
