"""What is done in which order to get the piece out, and how the mold is kept afterwards."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.foundation.notation import UnitSystem, format_length, format_mass
from pourwright.mold.way_out.cut import Cut
from pourwright.mold.way_out.defaults import WAY_OUT
from pourwright.mold.way_out.places import spot_words
from pourwright.mold.way_out.result import WayOut


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
    blocks = ", and the space blocks with them" if out.blocks else ""
    yield f"Take the four sides of the box off, one after the other{blocks}."
    yield from _cutting(out, units)
    yield "Loosen the rubber at the mouth with your fingers all round, and blow air in between."
    yield from _letting_air_in(out)
    yield from _opening(out)
    if out.plugs:
        yield "Last, ease the rubber out of the hollow of the piece: tip it to one side, let air in there."
    yield "Close the rubber again, mark to mark, and put it back into its box at once."


def _cutting(out: WayOut, units: UnitSystem) -> Iterator[str]:
    if not out.cuts:
        return
    places = " and at ".join(spot_words(cut.angle, out.inside, units) for cut in out.cuts)
    ends = format_length(out.cuts[0].ends_at, units)
    yield (
        "Only the first time, with the master still in it: draw numbered marks across the line with a felt "
        f"pen, then cut the rubber at {places}, from the rim down to {ends} above the cavity's floor, in "
        "waves, with a new blade, drawing it, not sawing."
    )


def _letting_air_in(out: WayOut) -> Iterator[str]:
    if out.cuts:
        yield (
            "Peel the rubber off the piece from the foot of the cut inward before anything is lifted: there "
            "the air gets under it."
        )
    else:
        yield (
            "Take the board off the rubber's floor and press the floor in at its middle, or blow air down a "
            "thin tube pushed along the wall to the floor, until the piece comes loose. Do not lift before."
        )
    if out.cores:
        yield (
            "Rubber stands in a hollow of the piece, and no air gets to its top: push a thin tube up between "
            "both from the rim of the hollow and blow, or press a hollow needle up through the rubber below."
        )


def _opening(out: WayOut) -> Iterator[str]:
    yield {
        "straight": "Lift the piece straight up.",
        "stretch": (
            "Roll the rubber down off the piece like a sleeve, a little on each side in turn; do not jerk."
        ),
        "one cut": (
            "Open the rubber like a book, tilt the piece toward the cut and take it out upward and sideways. "
            "The foot of the cut stays shut: do not force it wider there."
        ),
        "two cuts": "Lean both halves outward about the floor and lift the piece.",
        "two parts": (
            "Cut on through whatever closes round the piece, or better: make this mold of two parts, so that "
            "nothing has to be cut."
        ),
    }[out.opening]


def making_the_cut(cut: Cut, inside: tuple[float, float], units: UnitSystem) -> Iterator[str]:
    """Say how one cut is made so that it refits.

    Parameters
    ----------
    cut : Cut
        Where.
    inside : tuple of float
        Of the box along x and y [m].
    units : UnitSystem
        What the maker reads.

    Yields
    ------
    str
    """
    length, land = format_length(cut.length, units), format_length(cut.land, units)
    deepest = format_length(cut.depth, units)
    yield f"{length} long at {spot_words(cut.angle, inside, units)}, from the rim down"
    yield f"through {land} of rubber at the thinnest, {deepest} at the thickest, square to the piece"
    if cut.waves > 1:
        wave, spacing = (format_length(each, units) for each in (cut.wave, cut.length / cut.waves))
        yield f"{cut.waves} waves {wave} to and fro, one every {spacing}: they are the keys that refit it"
    elif cut.waves:
        yield f"one wave {format_length(cut.wave, units)} to and fro half-way down: the key that refits it"
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
    core = "On its core, in its box: the master or a spare piece inside, the cut shut and taped. "
    return (
        f"{core}Rubber keeps the shape that it lies in.",
        f"Flat and upright, nothing on top of it: {format_mass(weight, units)} of rubber sags under itself.",
        "Clean, dry and cool, out of the sun, away from whatever weeps oil or paint.",
    )
