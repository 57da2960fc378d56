"""What is told of the mold."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.answering.document import Cell, Number, Section, Table
from pourwright.app.answering.looked import CheapLook
from pourwright.app.answering.numbers import cell, measured, number, size_text, table
from pourwright.foundation.notation import format_force, format_mass
from pourwright.mold import DEFAULTS

BLOCKS_MISSING = "the space blocks of this box are not looked for yet: the rubber is told without them"
SKIN_MISSING = "the skin is not measured yet: the rubber is told as for a block"
FOR_A_BLOCK = "Box, panels and hold-down are told as for a block: a skin stands in a shell, without a box."
WAYS = {"block": "one block in a box", "two-part": "two pours that part", "skin": "a skin in a rigid shell"}


def mold_section(look: CheapLook) -> Section:
    """Tell rubber, hold-down and box.

    Parameters
    ----------
    look : CheapLook
        The job.

    Returns
    -------
    Section
    """
    missing = BLOCKS_MISSING if look.blocks_missing else SKIN_MISSING if look.skin_missing else ""
    return Section(
        numbers=[*_skin(look), *_rubber(look), *_held(look), *_box(look)],
        tables=[_panels(look), *_blocks(look)],
        notes=[FOR_A_BLOCK] if look.job.mold.way == "skin" else [],
        old=missing,
    )


def skin_thickness(look: CheapLook) -> float:
    """Thickness of a mold that is a skin [m]."""
    given = look.job.mold.skin
    return DEFAULTS["skin"].value if given is None else given.si


def _skin(look: CheapLook) -> Iterator[Number]:
    if look.skin is None:
        return
    system, density = look.system, look.mold.choices.rubber.density.value
    thick = skin_thickness(look)
    volume = look.skin.volume(thick)
    yield number("skin_m", "thickness of the skin", thick, system)
    yield number("skin_volume_m3", "rubber of the skin", volume, system, "without its flange")
    yield number("skin_kg", "weight of the skin", volume * density, system)


def _rubber(look: CheapLook) -> Iterator[Number]:
    mold, system = look.mold, look.system
    mix, record = mold.rubber, mold.choices.rubber
    way = WAYS[look.job.mold.way]
    yield number("rubber_volume_m3", "rubber", mix.volume, system, f"{record.name}, {way}")
    yield number("rubber_kg", "rubber in the box", mix.mass, system)
    yield number("rubber_mixed_kg", "rubber to mix", mix.mass_mixed, system, "spare in it")
    yield number("rubber_a_kg", "part A of it", mix.part_a, system)
    yield number("rubber_b_kg", "part B of it", mix.part_b, system)
    yield number("rubber_batches_count", "batches of rubber", len(mix.batches), system)


def _held(look: CheapLook) -> Iterator[Number]:
    held, system = look.mold.hold_down, look.system
    lifts, weighs = format_force(held.buoyancy, system), format_mass(held.master_mass, system)
    note = f"the rubber lifts with {lifts}, the master weighs {weighs}"
    if held.net_force <= 0:
        note = f"it is heavier than the rubber it displaces: {note}"
    yield number("net_force_N", "the master is lifted by", held.net_force, system, note)
    if held.screws_needed is not None:
        yield number("screws_count", "screws through the base board", held.screws_needed, system)
    else:
        yield number("weight_needed_kg", "weight on the bars", held.weight_needed, system, "safety in it")


def _box(look: CheapLook) -> Iterator[Number]:
    mold, system = look.mold, look.system
    box = size_text(mold.outside, system)
    yield number("box_height_m", "height of the box", mold.outside[2], system, f"{box} over all")
    yield number("empty_mass_kg", "empty mold", mold.empty_mass, system)
    full = mold.filled_mass(_in_mold(look))
    yield number("filled_mass_kg", "filled mold", full, system, "who lifts it, on what")


def _in_mold(look: CheapLook) -> float:
    if look.mix is not None:
        return look.mix.wet_mass + look.mold_look.core_mass
    return look.mold_look.in_mold


def _panels(look: CheapLook) -> Table:
    system = look.system
    heads = (
        ("panel", "panel"),
        ("pieces_count", "pieces"),
        ("length_m", "length"),
        ("width_m", "width"),
        ("thickness_m", "thick"),
    )

    def row(name: str, count: int, sides: tuple[float, float, float]) -> list[Cell]:
        keys = [key for key, _ in heads[2:]]
        sizes = [measured(key, side, system) for key, side in zip(keys, sides, strict=True)]
        return [cell(name), measured("pieces_count", count, system), *sizes]

    rows = [row(one.name, one.count, (one.length, one.width, one.thickness)) for one in look.mold.panels]
    return table("panels", f"Panels of the box, {look.mold.choices.board.name}", heads, rows)


def _blocks(look: CheapLook) -> Iterator[Table]:
    blocks, system = look.mold.blocks, look.system
    if not blocks:
        return
    heads = (("block", "block"), ("size", "size"), ("volume_m3", "takes the place of"), ("wall", "fixed to"))
    rows = [
        [
            cell(f"block {place}"),
            cell(size_text(block.size, system)),
            measured("volume_m3", block.volume, system),
            cell(block.wall),
        ]
        for place, block in enumerate(blocks, 1)
    ]
    yield table("blocks", "Space blocks, wood in the place of rubber", heads, rows)
