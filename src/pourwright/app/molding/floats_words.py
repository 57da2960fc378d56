"""What is said of a floating master, in the maker's words."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from pourwright.app.molding.look import MoldLook
from pourwright.foundation.notation import UnitSystem, format_bend, format_length, format_mass
from pourwright.jobs.mold_floats import FloatBars, FloatBlock, Floats
from pourwright.mold.hold.defaults import HOLD, LONG, MOST_BARS, SECTIONS
from pourwright.mold.hold.floats import MoldFloats
from pourwright.mold.hold.screws import Screw
from pourwright.physics.constants import STANDARD_GRAVITY

INCH = 0.0254
INCHES = (1.0, 1.25, 1.5, 1.625, 1.75, 2.0, 2.5, 2.75, 3.25, 3.5, 4.0, 5.0, 5.5)
"""Wood screws as sold by the inch."""
A_HAIR = 0.02
"""Share of its weight that is too small to speak of."""


def screw_size(screw: Screw, system: UnitSystem) -> str:
    """Name a screw as the shop asks for it.

    Parameters
    ----------
    screw : Screw
        Its size.
    system : UnitSystem
        Millimetres, or a number and inches.

    Returns
    -------
    str

    Examples
    --------
    >>> size = Screw(diameter=0.004, length=0.040, depth=0.022)
    >>> screw_size(size, UnitSystem.METRIC), screw_size(size, UnitSystem.US)
    ('4 x 40 mm', 'No. 8 x 1 5/8 in')
    """
    if system is UnitSystem.METRIC:
        return f"{1e3 * screw.diameter:g} x {1e3 * screw.length:g} mm"
    length = min(INCHES, key=lambda inches: abs(inches * INCH - screw.length))
    return f"No. {8 if screw.length <= LONG else 12} x {format_length(length * INCH, system)}"


def float_words(look: MoldLook, found: MoldFloats, told: Floats) -> Iterator[str]:
    """Say what happens while the rubber rises.

    Parameters
    ----------
    look : MoldLook
        For units.
    found : MoldFloats
        As reckoned.
    told : Floats
        The same, as written into the sheet.

    Yields
    ------
    str
    """
    yield from _hung(look, told) if told.held == "hung" else _screwed(look, found, told)
    if told.bars is not None:
        yield from _weights(look, told.bars, told)
    if told.blocks and any(block.net_N > 0 for block in told.blocks):
        yield "Space blocks are lifted too, each most of all once drowned; their screws are told beside it."


def _hung(look: MoldLook, told: Floats) -> Iterator[str]:
    weighs = _weight(look, told.master_kg * STANDARD_GRAVITY)
    if told.floats_from_m is None:
        yield (
            f"It is heavier than the rubber it displaces: it sinks, the bars carry it all along ({weighs} "
            "before any rubber), and no weight is needed."
        )
        return
    yield (
        f"Before the rubber the bars carry all of it, {weighs}; once the rubber is "
        f"{_level(look, told.floats_from_m)} up it wants to rise, most of all when it is drowned."
    )


def _weights(look: MoldLook, bars: FloatBars, told: Floats) -> Iterator[str]:
    """Where the weight comes from, and what clamps do instead."""
    if told.weight_needed_kg <= 0:
        return
    short = told.weight_needed_kg - bars.panels_kg
    pulled = f"which weigh {_mass(look, bars.panels_kg)}"
    if short > 0:
        pulled += f": their screws into the base board must bear {_mass(look, short)} more"
    yield (
        "Lay the weights over the middle of each bar before the master is pressed down, and leave them until "
        f"the rubber has set. Or clamp the bars to the panels, {pulled}."
    )


def _screwed(look: MoldLook, found: MoldFloats, told: Floats) -> Iterator[str]:
    weight = told.master_kg * STANDARD_GRAVITY
    if found.face[2] <= 0:
        yield "It stands on a point or a ridge: no face lies on the board, so nothing keeps rubber out below."
    elif told.tight_N > weight:
        yield (
            f"Screwed tight it is lifted with {_weight(look, told.tight_N)} when the rubber is "
            f"{_level(look, told.tight_level_m)} up, and weighs {_mass(look, told.master_kg)}: the wide "
            "place above the board is drowned there. Higher up the rubber presses it down again."
        )
    elif told.tight_N > A_HAIR * weight:
        yield (
            f"While no rubber gets under it, it is lifted with {_weight(look, told.tight_N)} at most, when "
            f"the rubber is {_level(look, told.tight_level_m)} up: less than it weighs."
        )
    else:
        yield "While no rubber gets under it, the rubber presses it down: caulk all round its foot helps."
    if told.floats_from_m is None:
        yield "It stays down by its own weight even with rubber under it; the screws keep it from shifting."
    else:
        yield (
            "If rubber creeps under it, it is lifted off once the rubber is "
            f"{_level(look, told.floats_from_m)} up, and hardest at {_level(look, told.worst_level_m)}."
            f"{' The screws are counted for that.' if told.screws else ''}"
        )


def float_warnings(look: MoldLook, found: MoldFloats, told: Floats) -> Iterator[str]:
    """Say what would give way.

    Parameters
    ----------
    look : MoldLook
        For units.
    found : MoldFloats
        As reckoned.
    told : Floats
        The same, as written into the sheet.

    Yields
    ------
    str
    """
    if told.bars is not None:
        yield from _bars(look, told.bars)
    if found.face[2] <= 0 and told.held == "hung":
        yield "The master has no flat open face for bars to lie on: screw a board to it that reaches the rim."
    if not found.screws.wood.holds_screws:
        yield (
            "No screw can be counted on in this master: it is lighter or heavier than wood and board are. "
            "Glue a board of plywood to its open face, and screw into that."
        )
    elif found.screws.screw is None:
        yield "No wood screw is long enough for bar and spacer: hold the master with angle brackets."
    elif found.face[2] > 0 and found.screws.apart < HOLD["screw_pitch"].value:
        near, least = (_length(look, size) for size in (found.screws.apart, HOLD["screw_pitch"].value))
        yield (
            f"{found.screws.count} screws in the open face are only {near} apart, {least} is the least: glue "
            "a wider board to it, or make the master heavier."
        )
    yield from (text for block in told.blocks for text in _block(block))


def _bars(look: MoldLook, bars: FloatBars) -> Iterator[str]:
    if 0 < bars.fit < bars.count:
        yield (
            f"The open face takes {bars.fit} of the {bars.count} bars side by side: take fewer or narrower "
            "ones, or screw a board to the face first."
        )
    if bars.holds:
        return
    down, up = (_bend(look, bend.bends_m) for bend in (bars.hanging, bars.drowned))
    way = "pressed up" if bars.drowned.bends_m >= bars.hanging.bends_m else "under the master's weight"
    worst = up if way == "pressed up" else down
    over = f"they bend {worst} {way}, {_length(look, bars.limit_m)} is the limit"
    if max(bars.drowned.bends_m, bars.hanging.bends_m) <= bars.limit_m:
        over = "they may break, though they bend little"
    taken = _section(look, bars.section_m)
    yield f"{bars.count} bars of {taken} are too weak: {over}. {_instead(look, bars)}"


def _instead(look: MoldLook, bars: FloatBars) -> str:
    if bars.instead_section_m is None or bars.instead_count is None:
        highest = _section(look, SECTIONS[-1])
        return (
            f"Not even {MOST_BARS} of {highest} would do: take steel, or hang the master from a stiff board."
        )
    return f"{bars.instead_count} of {_section(look, bars.instead_section_m)}, on edge, would do."


def _block(block: FloatBlock) -> Iterator[str]:
    if block.screws_used > 1.0:
        needed = ceil(block.screws * block.screws_used)
        yield (
            f"Space block {block.letter}: its {block.screws} screws bear more than they may. Take {needed}, "
            "or glue it on too."
        )


def _section(look: MoldLook, section: tuple[float, float]) -> str:
    across, up = (_length(look, side) for side in section)
    return f"{across} across and {up} up"


def _weight(look: MoldLook, force: float) -> str:
    """A force [N] as the mass that weighs as much."""
    return _mass(look, force / STANDARD_GRAVITY)


def _mass(look: MoldLook, kilograms: float) -> str:
    return format_mass(kilograms, look.system, step=0.1)


def _level(look: MoldLook, level: float) -> str:
    return _length(look, level)


def _length(look: MoldLook, metres: float) -> str:
    return format_length(metres, look.system)


def _bend(look: MoldLook, metres: float) -> str:
    return format_bend(metres, look.system)
