"""What is said of the seams of a mold."""

from __future__ import annotations

from collections.abc import Iterator
from math import isfinite

from pourwright.app.molding.look import MoldLook
from pourwright.app.molding.seams_found import SeamsFound
from pourwright.foundation.notation import (
    format_cut_length,
    format_duration,
    format_length,
    format_mass,
)
from pourwright.mold.seams.leaks import LiquidLeaks, slurry_stops_at

MUCH_THINNER = 3.0
"""One liquid flows so many times as much as another before it is worth a word."""
THIN_LAYER = 0.5
"""Pours of this share of the height are told as an example."""


def liquid_words(look: MoldLook, leaks: LiquidLeaks) -> str:
    """Say what one liquid does, in a sentence or two.

    Parameters
    ----------
    look : MoldLook
        The mold.
    leaks : LiquidLeaks
        What it loses.

    Returns
    -------
    str
    """
    if not leaks.sure:
        return f"The {leaks.liquid.name} reaches no seam: the rubber stays whole."
    if leaks.liquid.kind == "mineral":
        return _slurry(look, leaks)
    if not isfinite(leaks.widest):
        return f"As much {leaks.liquid.name} may be lost as is poured (limits.leak): nothing to mind."
    lost, may = (_mass(look, mass) for mass in (leaks.expected, leaks.allowed))
    gels = format_duration(leaks.liquid.gels_after)
    sets = "sets" if leaks.liquid.kind == "rubber" else "gels"
    return (
        f"Until the {leaks.liquid.name} {sets} ({gels}) its seams lose {lost} of it through the gaps one "
        f"expects; {may} may be lost: no gap wider than {_gap(look, leaks.widest)}, if all are alike."
    )


def _slurry(look: MoldLook, leaks: LiquidLeaks) -> str:
    stops = min(slurry_stops_at(leaks.liquid, leak.joint) for leak in leaks.sure)
    most = _mass(look, leaks.liquid.most * leaks.liquid.density)
    return (
        f"The slurry itself comes to rest in gaps below {_gap(look, stops)}; of its water at most "
        f"{most} comes out before it sets (common practice). A dark wet line at a seam is harmless, grey "
        "drops are not."
    )


def seam_words(look: MoldLook, found: SeamsFound) -> Iterator[str]:
    """Say what to mind about all seams.

    Parameters
    ----------
    look : MoldLook
        The mold.
    found : SeamsFound
        Its seams.

    Yields
    ------
    str
    """
    cast = found.cast
    if len(found.liquids) > 1 and cast.sure:
        rubber = found.liquids[0]
        yield (
            f"Rubber reaches the seams of the box and never the {_where(cast)}; {cast.liquid.name} reaches "
            f"the {_where(cast)} and never the box, unless it has got through there: caulk in the box "
            "does nothing for the casting."
        )
        times = cast.liquid.fluidity / rubber.liquid.fluidity
        if cast.liquid.kind == "resin" and times > MUCH_THINNER:
            yield (
                f"Through the same gap the {cast.liquid.name} flows {_round(times)} times as much as the "
                "rubber before it gels. Warm or cold hardly matters: colder it is thicker, and open for "
                "longer."
            )
    if cast.liquid.kind == "resin" and cast.sure:
        yield from _by_pours(look, cast)
    if any(leak.joint.kind == "rod" for leak in cast.leaks):
        yield (
            "The core crosses no seam of the mold unless it is held by a rod through the floor. What covers "
            "it is a seam of its own: laps of tape rubbed down, a thumb wide; what gets in there is lost to "
            "the core."
        )


def _by_pours(look: MoldLook, cast: LiquidLeaks) -> Iterator[str]:
    height = look.piece.size[2]
    if cast.layer < height:
        deep = format_length(cast.layer, look.system)
        yield f"Reckoned with at most {deep} of liquid resin at a time (limits.liquid_depth)."
        return
    layer = height / 4
    expected = sum(leak.expected * leak.joint.drive(layer) / leak.joint.drive() for leak in cast.sure)
    yield (
        f"Reckoned as if all the resin stood in the mold at once. In four equal pours, each gelled before "
        f"the next, it would be {_mass(look, expected)}: what has gelled closes its part of the seam. "
        "limits.liquid_depth reckons with it."
    )


def seam_warnings(look: MoldLook, found: SeamsFound) -> Iterator[str]:
    """Warn of liquids that lose more than they may.

    Parameters
    ----------
    look : MoldLook
        The mold.
    found : SeamsFound
        Its seams.

    Yields
    ------
    str
    """
    yield from _running_slurry(look, found.cast)
    for leaks in found.liquids:
        if leaks.expected <= leaks.allowed or not leaks.sure:
            continue
        worst = leaks.sure[0]
        yield (
            f"Unsealed, {_mass(look, leaks.expected)} of {leaks.liquid.name} would leak out before it sets, "
            f"more than the {_mass(look, leaks.allowed)} that may: first close the {worst.joint.name}, which "
            f"loses {_mass(look, worst.expected)} through {_gap(look, worst.joint.gap)}; "
            f"{_gap(look, leaks.widest)} would do everywhere."
        )


def _running_slurry(look: MoldLook, leaks: LiquidLeaks) -> Iterator[str]:
    wide = [leak for leak in leaks.sure if leaks.liquid.yield_stress and leak.joint.gap > leak.widest]
    for leak in wide:
        yield (
            f"{look.casting.name} runs out of a gap of {_gap(look, leak.joint.gap)} at the "
            f"{leak.joint.name}; it rests in gaps below {_gap(look, leak.widest)} (from memory): close it."
        )


def _where(leaks: LiquidLeaks) -> str:
    kinds = {leak.joint.kind for leak in leaks.sure}
    return "line where halves meet" if "line" in kinds else "cut"


def _gap(look: MoldLook, metres: float) -> str:
    return format_cut_length(metres, look.system)


def _mass(look: MoldLook, kilograms: float) -> str:
    return format_mass(kilograms, look.system)


def _round(number: float) -> str:
    step = 10 ** max(len(str(int(number))) - 2, 0)
    return f"{round(number / step) * step:,}"
