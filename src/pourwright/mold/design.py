"""The mold of one piece, from its choices."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import format_duration, format_length, format_mass, format_volume
from pourwright.geometry.levels import LevelVolume
from pourwright.materials.batches import (
    HANDLING_RATE,
    MIXING_TIME,
    USABLE_PAIL,
    Batch,
    largest_batch,
    split_batches,
)
from pourwright.mold.blocks.asked import BlocksAsked, blocks_asked
from pourwright.mold.blocks.placed import placed_blocks
from pourwright.mold.choices import MoldChoices
from pourwright.mold.defaults import DEFAULTS
from pourwright.mold.hold.master import hold_down
from pourwright.mold.panels import Head, box_panels, box_seams, fill_head, rubber_head
from pourwright.mold.result import HoldDown, MoldResult, Panel, RubberMix, Size
from pourwright.mold.rubber import RubberPour
from pourwright.mold.rubber_work import most_in_pot, time_alone
from pourwright.mold.space_block import SpaceBlock
from pourwright.physics.constants import STANDARD_GRAVITY

Finder = Callable[[BlocksAsked], tuple[SpaceBlock, ...]]
"""Who places space blocks."""


def design_mold(
    size: Size, levels: LevelVolume, choices: MoldChoices, find: Finder = placed_blocks
) -> MoldResult:
    """Design one poured block of rubber and its box.

    Parameters
    ----------
    size : tuple of float
        Of the piece as cast: x, y, z of its bounds [m].
    levels : LevelVolume
        V(z) of the piece as cast.
    choices : MoldChoices
        Materials and dimensions.
    find : callable
        Places the space blocks; the search where left out.

    Returns
    -------
    MoldResult
        Rubber, hold-down, panels, seams, masses.

    Raises
    ------
    UserError
        For dimensions that make no mold.
    """
    _refuse_impossible(choices)
    inside = (size[0] + 2 * choices.wall, size[1] + 2 * choices.wall, size[2] + choices.base)
    blocks = _blocks(levels, inside, choices, find)
    pour = RubberPour(levels, choices.method, choices.base, inside[0] * inside[1], blocks)
    height = inside[2] + choices.freeboard
    head = _densest(size[2], pour, choices)
    panels = box_panels(inside, height, choices.thickness, head, choices.method, choices.joint)
    mix = _rubber_mix(pour, choices)
    held = hold_down(pour, choices)
    t = choices.thickness
    return MoldResult(
        choices=choices,
        method=choices.method,
        wall=choices.wall,
        base=choices.base,
        cover=choices.cover,
        inside=inside,
        outside=(choices.joint.side_length(inside[0], t), inside[1] + 2 * t, height + t),
        rim=size[2] + (choices.freeboard if choices.method == "hung" else 0.0),
        pour=pour,
        rubber=mix,
        hold_down=held,
        panels=panels,
        seams=box_seams(inside, mix.head_at_bottom),
        empty_mass=mix.mass + _standing_mass(panels, choices) + pour.wood * choices.block_board.density.value,
        reasons=tuple((f"mold.{key}", _why(key, choices)) for key in _defaults_kept(choices)),
        warnings=tuple(_warnings(choices, held, mix)),
        blocks=blocks,
    )


def _blocks(levels: LevelVolume, inside: Size, choices: MoldChoices, find: Finder) -> tuple[SpaceBlock, ...]:
    if not choices.space_blocks or choices.way != "block":
        return ()
    asked = choices.blocks
    if asked.least > max(inside):
        longest = format_length(max(inside), choices.units)
        raise UserError(
            f"mold.least_block is {format_length(asked.least, choices.units)}",
            where=asked.where,
            allowed=f"less than the box, {longest} at its longest",
        )
    return find(blocks_asked(levels.mesh, inside, choices))


def _refuse_impossible(choices: MoldChoices) -> None:
    for name in ("wall", "base"):
        if getattr(choices, name) <= 0:
            raise UserError(
                f"mold.{name} is {format_length(getattr(choices, name), choices.units)}",
                allowed="more than 0",
            )
    if choices.cover != 0:
        raise UserError(
            f"mold.cover is {format_length(choices.cover, choices.units)}",
            allowed="0",
            todo="leave it out: rubber over the open face closes the mouth of the mold",
        )
    if choices.safety_factor < 1:
        raise UserError(f"mold.safety_factor is {choices.safety_factor:g}", allowed="1 or more")


def _densest(height: float, pour: RubberPour, choices: MoldChoices) -> Head:
    density = choices.rubber.density.value
    heads = (
        rubber_head(density, pour.level_wanted),
        fill_head(choices.casting_density, density, height, choices.base),
    )
    return max(heads, key=lambda head: head.pressure)


def _rubber_mix(pour: RubberPour, choices: MoldChoices) -> RubberMix:
    rubber = choices.rubber
    mass = pour.volume * rubber.density.value
    batches = _batches(mass * (1 + choices.rubber_pour_allowance), choices)
    return RubberMix(
        volume=pour.volume,
        mass=mass,
        mass_mixed=sum(batch.mass for batch in batches),
        part_a=sum(batch.part_a for batch in batches),
        part_b=sum(batch.part_b for batch in batches),
        fill_mark=pour.fill_mark(),
        level_after=pour.level_after(pour.volume),
        head_at_bottom=rubber_head(rubber.density.value, pour.level_wanted).pressure,
        batches=batches,
    )


def _batches(mass: float, choices: MoldChoices) -> tuple[Batch, ...]:
    rubber, tools = choices.rubber, choices.tools
    largest = largest_batch(rubber.density.value, tools, choices.works_for)
    if choices.vacuum_pot is not None:
        in_pot = most_in_pot(choices.vacuum_pot, rubber.density.value)
        largest = max(min(largest, in_pot), tools.scale_step * 10)
    return split_batches(mass, (rubber.parts_a.value, rubber.parts_b.value), largest, tools.scale_step)


def _standing_mass(panels: tuple[Panel, ...], choices: MoldChoices) -> float:
    # a screwed master's base board is off the mouth while the mold is carried about
    standing = [panel for panel in panels if not (choices.method == "screwed" and panel.name == "base")]
    volume = sum(panel.count * panel.length * panel.width * panel.thickness for panel in standing)
    return volume * choices.board.density.value


def _defaults_kept(choices: MoldChoices) -> Iterator[str]:
    for name in ("wall", "base", "cover", "freeboard", "safety_factor", "rubber_pour_allowance"):
        if getattr(choices, name) == DEFAULTS[name].value:
            yield name


def _why(name: str, choices: MoldChoices) -> str:
    """Reason of a default, with the usual range in the maker's units."""
    default = DEFAULTS[name]
    if default.unit != "m" or not default.high or default.low is None:
        return default.conditions
    usual = " to ".join(format_length(edge, choices.units) for edge in (default.low, default.high))
    return f"{default.conditions}; usual: {usual}"


def _warnings(choices: MoldChoices, held: HoldDown, mix: RubberMix) -> Iterator[str]:
    yield from _unusual(choices)
    if choices.way == "two-part":
        cures = format_duration(choices.rubber.demold_time.value)
        yield (
            "Two pours that part: rubber ticket and calendar are those of one. Pour half of the rubber on "
            f"each side, the second once the first is firm, and add {cures} and the work on the bed."
        )
    if choices.way == "skin":
        yield "Rubber, box and hold-down outside the table of ways are those of a block, not of a skin."
    if choices.way != "block":
        return
    if held.net_force > 0:
        lifts, more, weighs = (
            format_mass(mass, choices.units)
            for mass in (
                held.buoyancy / STANDARD_GRAVITY,
                held.net_force / STANDARD_GRAVITY,
                held.master_mass,
            )
        )
        yield (
            f"The master floats: the liquid rubber carries {lifts}, which is {more} more than the master's "
            f"own {weighs}."
        )
    yield from _slow_to_pour(choices, mix)


def _slow_to_pour(choices: MoldChoices, mix: RubberMix) -> Iterator[str]:
    count, needed = len(mix.batches), time_alone(mix.batches, choices.vacuum_pot)
    works = choices.works_for
    if choices.method == "hung" and needed > works:
        yield (
            f"The master goes down into rubber that is setting: one person needs {format_duration(needed)} "
            f"for {_batch_words(count)}, the rubber works for {format_duration(works)}. "
            f"What mends it: {_mending(choices, mix)}."
        )
    elif count > 1:
        yield (
            f"The rubber takes {_batch_words(count)}, {format_duration(needed)} for one person: pour each "
            "next one before the one in the box stops flowing, or have a second person mix."
        )


def _batch_words(count: int) -> str:
    return "1 batch" if count == 1 else f"{count} batches"


def _mending(choices: MoldChoices, mix: RubberMix) -> str:
    """Changes that bring the rubber in within its working time, as far as each can."""
    needed = format_duration(time_alone(mix.batches, choices.vacuum_pot))
    ways = ['method = "screwed" (the master stands in the box from the start)']
    left = choices.works_for - mix.mass_mixed / HANDLING_RATE.value
    fewer = int(left // MIXING_TIME.value)
    if 0 < fewer < len(mix.batches):
        pail = mix.mass_mixed / fewer / choices.rubber.density.value / USABLE_PAIL.value
        ways.append(f"a pail of {format_volume(pail, choices.units)} and a scale that carries it")
    ways += ["a second person mixing", f"a rubber that works for {needed} or more"]
    return ", or ".join(ways)


def _unusual(choices: MoldChoices) -> Iterator[str]:
    for name in ("wall", "base"):
        low, high = DEFAULTS[name].low or 0.0, DEFAULTS[name].high or float("inf")
        value = getattr(choices, name)
        if not low - 1e-9 <= value <= high + 1e-9:
            usual = " to ".join(format_length(edge, choices.units) for edge in (low, high))
            yield f"Mold {name} of {format_length(value, choices.units)} lies outside the usual {usual}."
