"""What is said of a box, in the maker's units."""

from __future__ import annotations

from pourwright.app.molding.box_reckoned import BoxReckoned
from pourwright.foundation.notation import (
    UnitSystem,
    format_bend,
    format_density,
    format_length,
    format_mass,
    format_share,
    format_volume,
)
from pourwright.materials import Mineral
from pourwright.mold import DEFAULTS, Panel
from pourwright.mold.box.bulge import Bulge
from pourwright.mold.lifting import people_to_lift
from pourwright.physics.fresh_concrete import full_head_below

SEEN = 5e-6
"""Less rubber than this is not worth a word [m3]."""
KILOGRAM, POUND = 1.0, 0.45359237


def liquid_words(box: BoxReckoned) -> str:
    """Say which liquid presses most.

    Parameters
    ----------
    box : BoxReckoned
        The box.

    Returns
    -------
    str
        To follow "under".
    """
    choices, look = box.look.mold.choices, box.look
    if choices.casting_density <= choices.rubber.density.value:
        return "the rubber"
    whose = (
        "the densest fill of all variants" if choices.casting_density > look.densest + 1e-6 else "the fill"
    )
    return f"{whose}, which the soft rubber hands on"


def head_words(box: BoxReckoned) -> str:
    """Say which head is reckoned with.

    Parameters
    ----------
    box : BoxReckoned
        The box.

    Returns
    -------
    str
        A sentence.
    """
    dense = format_density(box.density, box.look.system)
    text = f"Reckoned with the full head of {liquid_words(box)} ({dense})"
    cast = box.look.casting
    if isinstance(cast, Mineral) and "concrete" in f"{cast.id} {cast.name}".lower():
        slow = format_length(full_head_below(box.density), box.look.system)
        return f"{text}, as if placed in one go: down to {slow} of depth slower placing changes nothing."
    return f"{text}, as if it were poured in one go."


def too_thin_words(box: BoxReckoned, found: Bulge) -> str:
    """Say that a panel bends farther than can be reckoned.

    Parameters
    ----------
    box : BoxReckoned
        The box.
    found : Bulge
        Of the panel.

    Returns
    -------
    str
        What is known of it.
    """
    half = format_bend(found.thickness / 2.0, box.look.system)
    return f"far too thin: it would bend by more than {half}, half its thickness, where this reckoning ends"


def wall_words(box: BoxReckoned, grows: float | None, room: float) -> str:
    """Say how thick the rubber is once the box has bulged.

    Parameters
    ----------
    box : BoxReckoned
        The box.
    grows : float or None
        Bulge while the rubber is poured [m]; None where nothing holds the panels.
    room : float
        What the bulge takes in rubber [m3].

    Returns
    -------
    str
        A sentence.
    """
    system, wall = box.look.system, DEFAULTS["wall"]
    # in inches the sum is told in thousandths, and so are its parts
    told = format_length if system is UnitSystem.METRIC else format_bend
    least = told(box.look.mold.wall, system)
    usual = " to ".join(format_length(edge, system) for edge in (wall.low or 0.0, wall.high or 0.0))
    text = f"{least} (common practice, {usual})"
    if grows is None:
        return f"{text}, and as much more as the panels bulge, once they are held"
    thick, more = format_bend(box.look.mold.wall + grows, system), ""
    if room >= SEEN:
        more = f", {format_volume(room, system)} more in all"
    return (
        f"{text} and {format_bend(grows, system)} that the box bulges while it is poured: {thick} at most"
        f"{more}; without its box it bulges by itself: see the way out"
    )


def lifting_words(mass: float, system: UnitSystem) -> str:
    """Say who may lift the filled mold.

    Parameters
    ----------
    mass : float
        Of the mold [kg].
    system : UnitSystem
        Of the maker.

    Returns
    -------
    str
        As "one person may lift it".
    """
    step = KILOGRAM if system is UnitSystem.METRIC else POUND
    limit = format_mass(round(DEFAULTS["lifting_limit"].value / step) * step, system, step=step)
    people = people_to_lift(mass)
    if people == 1:
        return f"one person may lift it, close to the body ({limit} at most)"
    if people == 2:
        return f"lift it with two ({limit} a person at most)"
    return f"a hoist, or a trolley at table height ({limit} a person at most)"


def panel_warning(box: BoxReckoned, panel: Panel, found: Bulge) -> str:
    """Warn of a panel that does not hold by itself.

    Parameters
    ----------
    box : BoxReckoned
        The box.
    panel : Panel
        Side or end.
    found : Bulge
        What it does.

    Returns
    -------
    str
        With what holds it.
    """
    system, limit = box.look.system, box.look.mold.choices.bulge_limit
    thin = found.bare > found.thickness / 2.0
    bulges = "is far too thin" if thin else f"bulges {format_bend(found.bare, system)}"
    if found.bare <= limit:
        bulges = f"is loaded to {format_share(found.stress / found.allowed)} of what it may bear"
    board = format_length(found.board_needed, system)
    held = "even twelve battens are too few" if found.battens is None else _battens(found)
    return (
        f"Each {panel.name} of the box {bulges} without battens ({format_bend(limit, system)} is the limit): "
        f"{held}; or board of {board}."
    )


def _battens(found: Bulge) -> str:
    assert found.battens is not None
    count, level = found.battens.count, found.battens.lie == "level"
    if level and count == 1:
        return "a batten along the rim holds it"
    if level:
        return f"{count} level battens hold it, the uppermost along the rim"
    return f"{count - 1} upright batten{'s' if count > 2 else ''} and one along the rim hold it"
