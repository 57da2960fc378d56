"""What is done in which order to get the piece out, and how the mold is kept afterwards."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees

from pourwright.foundation.notation import UnitSystem, format_length, format_mass
from pourwright.mold.way_out.cut import Cut
from pourwright.mold.way_out.defaults import WAY_OUT
from pourwright.mold.way_out.result import WayOut

SIDES = ("right", "back", "left", "front")


def side_words(angle: float) -> str:
    """Say where a direction lies, as one stands before the mold.

    Parameters
    ----------
    angle : float
        From the x axis [rad].

    Returns
    -------
    str

    Examples
    --------
    >>> side_words(0.0), side_words(3.9)
    ('the right side', 'the corner between left and front')
    """
    eighth = round(degrees(angle) / 45.0) % 8
    if eighth % 2 == 0:
        return f"the {SIDES[eighth // 2]} side"
    return f"the corner between {SIDES[eighth // 2]} and {SIDES[(eighth // 2 + 1) % 4]}"


def opening_order(out: WayOut, units: UnitSystem) -> Iterator[str]:
    """List the steps from the full box to the piece on the bench.

    Parameters
    ----------
    out : WayOut
        What was decided.
    units : UnitSystem
        What the maker reads.

    Yields
    ------
    str
        One step.
    """
    yield "Wait until the piece is hard and as cool as the shop: warm rubber tears sooner, warm resin bends."
    yield "Take the four sides of the box off, one after the other, and the space blocks with them."
    yield "Loosen the rubber at the mouth with your fingers all round, and blow air in between."
    yield from _letting_air_in(out)
    yield from _opening(out, units)
    yield "Close the rubber again, mark to mark, and put it back into its box at once."


def _letting_air_in(out: WayOut) -> Iterator[str]:
    if out.opening in ("one cut", "two cuts", "two parts"):
        yield (
            "Peel the rubber off one wall from the cut inward before anything is lifted: the air gets under "
            "the piece there."
        )
        return
    yield (
        "Take the board off the rubber's floor and press the floor in at its middle, or blow air down a thin "
        "tube pushed along the wall to the floor, until the piece comes loose. Do not lift before that."
    )


def _opening(out: WayOut, units: UnitSystem) -> Iterator[str]:
    if out.opening == "straight":
        yield "Lift the piece straight up."
        return
    if out.opening == "stretch":
        yield "Roll the rubber down off the piece like a sleeve, a little on each side in turn; do not jerk."
        return
    sides = " and ".join(side_words(cut.angle) for cut in out.cuts)
    ends = format_length(out.cuts[0].ends_at, units)
    yield (
        f"The first time, cut the rubber at {sides} from the rim down to {ends} above the cavity's floor, in "
        "waves, with a new blade, drawing not sawing; number both sides across the cut with a "
        "felt pen before."
    )
    if out.opening == "one cut":
        yield "Open the rubber like a book and take the piece out sideways, the open side first."
    elif out.opening == "two cuts":
        yield "Lean both halves outward about the floor and lift the piece."
    else:
        yield (
            "Cut on through whatever closes round the piece, or better: make this mold of two parts, so that "
            "nothing has to be cut."
        )


def making_the_cut(cut: Cut, units: UnitSystem) -> Iterator[str]:
    """Say how one cut is made so that it refits.

    Parameters
    ----------
    cut : Cut
        Where.
    units : UnitSystem
        What the maker reads.

    Yields
    ------
    str
    """
    length, land = format_length(cut.length, units), format_length(cut.land, units)
    yield f"{length} long through at least {land} of rubber, at {side_words(cut.angle)}"
    if cut.waves:
        wave, spacing = (format_length(each, units) for each in (cut.wave, cut.length / cut.waves))
        yield f"{cut.waves} waves {wave} to and fro, one every {spacing}: they are the keys that refit it"
    else:
        yield "too short for waves: number both sides across it"
    hole = format_length(WAY_OUT["cut_end"].value, units)
    yield f"it ends in a hole of {hole}, punched first, so that it does not run on"
    yield (
        "along an edge of the piece, which hides its line"
        if cut.on_edge
        else ("no edge hides its line: turn the piece's back to it when the master is set up")
    )


def keeping(weight: float, units: UnitSystem) -> tuple[str, ...]:
    """Say how the mold is kept between casts.

    Parameters
    ----------
    weight : float
        Of the rubber [kg].
    units : UnitSystem
        What the maker reads.

    Returns
    -------
    tuple of str
    """
    return (
        "In its box, with its master or the last piece inside: rubber keeps the shape that it lies in.",
        f"Flat and upright, nothing on top of it: {format_mass(weight, units)} of rubber sags under itself.",
        "Clean, dry and cool, out of the sun, away from whatever weeps oil or paint.",
    )
