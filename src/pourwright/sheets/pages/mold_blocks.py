"""The page of the space blocks: what to saw, where each sits, what they save."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.foundation.notation import UnitSystem
from pourwright.jobs.mold_blocks import MoldBlock, MoldBlocks
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.sheets.pages.common import Page, fact, plural, table
from pourwright.sheets.wording import Wording

HEADS = ["block, screwed to", "along × up × off", "boards, sawn to", "from left", "from foot", "screws"]
WORTH = ["block", "rubber", "mass", "its price", "sawing", "its price", "first screw at", "same size as"]
MARKS = (
    "Stamp the letter on the face that touches the panel and write it on the panel, inside the outline. "
    "Blocks of one size have their first screw at different places, so that each fits its own holes only. "
    "Left and foot are measured on the panel itself, its lap over the ends included."
)
GLUE = (
    "Glue the boards face on face, let the glue dry as its can says, then saw. Seal all six faces, the "
    "sawn edges twice, before the block is screwed on; drive the screws in through the panel, run a "
    "bead of caulk round the block where it meets the panel, then put the release on."
)


def blocks_pages(sheet: MoldSheet, words: Wording) -> Iterator[Page]:
    """Fill the page.

    Parameters
    ----------
    sheet : MoldSheet
        With its space blocks, or none.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    part = sheet.blocks
    if part is None:
        return
    if not part.blocks:
        yield {"title": "Space blocks", "blocks": [{"text": text} for text in part.words]}
        return
    yield {
        "title": "Space blocks",
        "note": "wood that takes rubber's place",
        "lead": part.words[0],
        "facts": list(_facts(part, words)),
        "blocks": [
            {"drawing": "drawings/space-blocks.svg", "alt": "Panels from inside with their space blocks"},
            {
                "table": table(HEADS, [_place(block, words) for block in part.blocks], "lllrrr"),
                "size": 8.5,
            },
            {"small": MARKS},
            {"text": f"Against the rubber: {part.sealed}."},
            {"small": GLUE},
            {"small": _screws(part, words)},
            {"table": table(WORTH, [_worth(block, words) for block in part.blocks], "lrrrrrrr"), "size": 8.5},
            *({"small": text} for text in part.words[1:]),
        ],
    }


def _facts(part: MoldBlocks, words: Wording) -> Iterator[dict[str, str]]:
    yield fact(
        "they take the place of", words.volume(part.volume_m3), f"{words.mass(part.rubber_kg)} of rubber"
    )
    yield fact("work", words.duration(part.sawing_h), plural(len(part.blocks), "block"))
    yield fact("board", words.area(part.wood_m2), part.board)
    if part.saves_money is not None:
        amounts = (part.rubber_money, part.sawing_money, part.wood_money)
        rubber, sawing, wood = ("" if amount is None else words.money(amount) for amount in amounts)
        yield fact(
            "they save", words.money(part.saves_money), f"{rubber} less {sawing} of work, {wood} of board"
        )
    else:
        yield fact("they save", "no sum", f"the job does not give {', '.join(part.missing)}")


def _place(block: MoldBlock, words: Wording) -> list[str]:
    boards = f"{block.layers} × {words.length(block.board_m)}"
    return [
        f"{block.letter}, {block.panel}",
        words.size(block.size_m),
        f"{boards}, {words.size(block.board_size_m)}",
        words.length(block.left_m),
        words.length(block.foot_m),
        f"{block.screws} of {words.length(block.screw_length_m)}",
    ]


def _worth(block: MoldBlock, words: Wording) -> list[str]:
    rubber, sawing = (
        "-" if amount is None else words.money(amount) for amount in (block.rubber_money, block.sawing_money)
    )
    return [
        block.letter,
        words.volume(block.volume_m3),
        words.mass(block.rubber_kg),
        rubber,
        words.duration(block.sawing_h),
        sawing,
        words.length(block.first_screw_m),
        ", ".join(block.twins) or "-",
    ]


def _screws(part: MoldBlocks, words: Wording) -> str:
    most = max(part.blocks, key=lambda block: block.bears_N / block.screws)
    thick = "No. 8" if words.system is UnitSystem.US else f"{1000 * part.screw_diameter_m:.0f} mm"
    lift, bears = words.force(most.lift_N), words.force(most.screw_bears_N)
    return (
        f"Wood screws, {thick}, predrilled. Liquid rubber lifts block {most.letter} by {lift}; its screws "
        f"bear the larger of that and its weight, and the tipping, {part.safety_factor:g} times: "
        f"{words.force(most.bears_N / most.screws)} on each, which bears {bears}. Where that is plenty their "
        "number follows from how far apart they may stand, so that no gap opens for rubber to creep behind. "
        f"A block that displaces less than {words.volume(part.worth_m3)} is not worth its sawing: "
        f"{part.worth_by}."
    )
