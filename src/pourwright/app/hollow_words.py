"""What is said about a core, and about a piece that is too heavy."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.hollowing import Hollowed
from pourwright.foundation.notation import (
    UnitSystem,
    format_length,
    format_mass,
    format_temperature,
    format_volume,
)
from pourwright.materials import Board, Core
from pourwright.mold.hollow.lift import CoreLift
from pourwright.mold.hollow.out import comes_out


def core_words(hollow: Hollowed, lift: CoreLift, system: UnitSystem) -> Iterator[str]:
    """Say how a core is made ready, hung and held, and what to mind.

    Parameters
    ----------
    hollow : Hollowed
        The core.
    lift : CoreLift
        What lifts it.
    system : UnitSystem
        Of what is printed.

    Yields
    ------
    str
    """
    yield _ready(hollow.material)
    yield from _hung(hollow, lift, system)
    if not hollow.body.cover and not comes_out(hollow.body.core):
        yield (
            "It is wider below than the narrowest place over it: it goes in while the cut rubber is open, or "
            "in parts that are glued together in the mold."
        )
    yield from _heat(hollow, system)
    yield from _leaving(hollow)
    if hollow.body.left_out > 0.01 * hollow.body.volume:
        missed = format_volume(hollow.body.left_out, system)
        yield f"Another {missed} lies deep enough for a core, but beyond a narrow place: it is cast solid."


def plainly(name: str) -> str:
    """Give a name as it stands inside a sentence.

    Examples
    --------
    >>> plainly("Plywood"), plainly("MDF")
    ('plywood', 'MDF')
    """
    return name if name[1:2].isupper() else f"{name[:1].lower()}{name[1:]}"


def _ready(material: Core | Board) -> str:
    how = material.preparing if isinstance(material, Core) else (
        "glue it up, round its edges, two coats of sealer, then wax or packing tape all over: wet wood swells"
    )  # fmt: skip
    return f"Core of {plainly(material.name)}: {how}."


def _hung(hollow: Hollowed, lift: CoreLift, system: UnitSystem) -> Iterator[str]:
    wall, covered = format_length(hollow.body.wall, system), hollow.body.cover
    if covered:
        yield (
            "It is drowned: two rods or more go right through the core and on upwards through the open face; "
            "their ends in the casting show there, or are cut off and plugged."
        )
    else:
        yield "It hangs in the mouth from a bar across the box; a board on its top spreads the bar's push."
    yield "Taper or round its floor a little: under a flat one air stays caught as the level comes up."
    yield (
        f"Set it on three stubs of cured resin, {wall} high, and wedge it sideways by {wall} all round: it "
        "drifts as soon as it floats."
    )
    if not lift.force:
        yield "It sinks by itself: the bar must carry it, not hold it down."
        return
    weight, worst = format_mass(lift.weight_needed, system), format_length(lift.worst_level, system)
    yield (
        f"Hold it down with {weight} on the bar, or clamp the bar to the box; safety factor "
        f"{lift.safety_factor:g}. The lift is greatest at a level of {worst}.{_rises(lift, system)} Leave it "
        "until the last pour has set; what has set around the core is not counted on."
    )


def _rises(lift: CoreLift, system: UnitSystem) -> str:
    if lift.rises_at is None:
        return ""
    return f" It floats from a level of {format_length(lift.rises_at, system)} on."


def _heat(hollow: Hollowed, system: UnitSystem) -> Iterator[str]:
    if hollow.peak_limit is not None:
        limit = format_temperature(hollow.peak_limit, system)
        yield (
            f"It softens above {limit}: the plan keeps the peak below. "
            "Foam and air let little heat through, so that the fill beside the core is the warmest."
        )


def _leaving(hollow: Hollowed) -> Iterator[str]:
    material = hollow.material
    if hollow.stays:
        if isinstance(material, Board):
            yield "Wood that stays moves with damp and may crack the casting: seal it on every side."
        return
    way = material.coming_out if isinstance(material, Core) else ""
    draft = "straight sides hold on, so plane 2 degrees of draft on, wax it, put in a screw to pull by"
    yield f"It comes out: {way or draft}."


def heavy_words(
    mass: float, most: float, within: tuple[float, float] | None, system: UnitSystem, *, mouth: bool = True
) -> str:
    """Say that a piece is heavier than it may be, and what would mend it.

    Parameters
    ----------
    mass, most : float
        Of the piece as planned, and what it may weigh [kg].
    within : (wall, mass), optional
        Of the piece cast hollow, where a wall keeps the limit [m], [kg].
    system : UnitSystem
        Of what is printed.
    mouth : bool
        Whether it has an open face for a core.

    Returns
    -------
    str

    Examples
    --------
    >>> heavy_words(14.2, 10.0, (0.025, 9.8), UnitSystem.METRIC).partition(": ")[2]
    'hollow to 25 mm it would weigh 9.80 kg.'
    """
    told, limit = (format_mass(value, system) for value in (mass, most))
    text = f"The piece weighs {told}, more than the {limit} of limits.weight"
    if within is not None:
        wall, light = format_length(within[0], system), format_mass(within[1], system)
        return f"{text}: hollow to {wall} it would weigh {light}."
    if mouth:
        thin = "no wall that its grains pass is thin enough to mend it"
        return f"{text}: {thin}; make it smaller, choose finer glass or a lighter casting."
    return f"{text}, and it has no open face for a core: make it smaller or choose a lighter casting."
