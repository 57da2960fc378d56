"""The tables of the job file about mold and master."""

from __future__ import annotations

from typing import Literal

from pourwright.jobs.fields import Count, Day, Density, Duration, Length, Mass, Share
from pourwright.jobs.keys import Section, key
from pourwright.mold.box.defaults import BOX
from pourwright.mold.defaults import DEFAULTS as MOLD


class Mold(Section):
    """Rubber and box."""

    way: Literal["block", "two-part", "skin"] = key(
        "one block of rubber cut open; two pours that part; or a skin of rubber in a rigid shell",
        default="block", why="least work, and no line where two halves meet; pourwright mold compares them",
    )  # fmt: skip
    casts: int | None = key(
        "casts that are wanted of the piece", shown="as many as one mold gives", ge=1, le=10000,
        why="the mold's cost is shared among them when its ways are compared",
    )  # fmt: skip
    method: Literal["hung", "screwed"] = key(
        "master hung from bars, open face up; or screwed to the base board, open face down", default="hung",
        why="nothing has to be turned over, and the mouth stays clean",
    )  # fmt: skip
    rubber: str = key(
        "id of the rubber",
        default="silicone-platinum-a25",
        why="stands heat, lets go of epoxy, bends out of undercuts",
    )
    wall: Length | None = key("least rubber beside the piece", room=MOLD["wall"], shown="20 mm")
    skin: Length | None = key("thickness of a brushed skin", room=MOLD["skin"], shown="10 mm")
    base: Length | None = key("rubber under the piece", room=MOLD["base"], shown="3/4 in")
    cover: Length | None = key("rubber over the open face", room=MOLD["cover"], shown="0 mm")
    freeboard: Length | None = key("panels above the rubber", room=MOLD["freeboard"], shown="0 mm")
    board: str = key("id of the board of the box", default="mdf", why="flat, cheap, easy to cut")
    board_thickness: Length | None = key("of the box", shown="the board's own")
    board_sheet: list[Length] | None = key(
        "length and width of the largest sheet of that board in the shop", shown="the board's own",
        why="no panel of the box may be larger", min_length=2, max_length=2,
    )  # fmt: skip
    joint: Literal["butt", "rabbet", "housing", "flange"] = key(
        "how the upright panels meet: sides that lap the ends; ends in a step along the edges of the sides; "
        "ends in grooves of the sides, which go on behind them; sides that go on, with clamps",
        default="butt", why="two straight cuts, no router",
    )  # fmt: skip
    bulge_limit: Length | None = key("most that a panel may bulge", room=BOX["bulge_limit"], shown="1 mm")
    safety_factor: float | None = key(
        "on the weight or screws that hold the master", room=MOLD["safety_factor"], ge=1, le=10
    )
    rubber_pour_allowance: Share | None = key("share mixed on top", room=MOLD["rubber_pour_allowance"])
    release: str | None = key(
        "id of the release on the master", shown="petroleum-jelly on pores, glass and old rubber; else none"
    )
    on_old_rubber: bool = key(
        "this rubber is also poured against cured rubber", default=False,
        why='only a second pour is; way = "two-part" always is',
    )  # fmt: skip
    space_blocks: bool = key(
        "wooden blocks that take rubber's place", default=False,
        why="they cost sawing; pourwright mold says what they save",
    )  # fmt: skip
    block_board: str | None = key("id of the board that space blocks are sawn from", shown="board")
    block_stock: list[Length] | None = key(
        "thicknesses of that board in the shop; sides of blocks are whole multiples of the thinnest",
        shown="its usual thickness", why="blocks are glued up from whole boards",
    )  # fmt: skip
    most_blocks: Count | None = key("space blocks at most", room=MOLD["most_blocks"], shown="12")
    least_block: Length | None = key(
        "shortest side of a space block", room=MOLD["least_block"], shown="36 mm"
    )
    bars: int | None = key(
        "bars across the rim that a hung master hangs from", room=MOLD["bars"], shown="2", ge=1, le=12
    )
    bar: list[Length] | None = key(
        "section of a bar as it lies on the rim, across and up", shown="45 mm across, 70 mm up",
        why="a lath as sold, on edge; pourwright mold says how far it bends, and which would do",
    )  # fmt: skip
    bar_board: str = key(
        "id of the board that bars are sawn from", default="pine", why="stiff along its grain"
    )
    sawing_time: Duration | None = key(
        "to saw, glue up, seal and screw on one space block", room=MOLD["sawing_time"], shown="10 min"
    )
    seam_gap: Length | None = key(
        "gap that you expect in every seam of box and rubber",
        shown="0.2 mm in the box, 0.05 mm in a cut, 0.1 mm where halves meet",
        why="a sawn edge lets two sheets of paper in here and there, a cut that the box presses shut none",
    )  # fmt: skip


class Master(Section):
    """The master, solid."""

    board: str = key("id of the board it is glued up from", default="mdf", why="no grain to print through")
    material: str | None = key("id of what the rubber meets under the sealer", shown="the board's id")
    sealer: str | None = key("id of what it is sealed with", shown="acrylic-lacquer on pores; else none")
    sealed: Day | None = key("date of the last coat of sealer", shown="not yet", why="the calendar seals it")
    patch_test: Day | None = key(
        "date on which a test patch came off cured and clean", shown="not yet",
        why="until then the rubber ticket is blocked wherever the table does not say fine",
    )  # fmt: skip
    density: Density | None = key("instead of the board's", shown="the board's own")
    mass: Mass | None = key("as weighed; wins over density", shown="volume times density")
