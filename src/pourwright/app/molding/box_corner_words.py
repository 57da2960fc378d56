"""What is said of the fastenings of a box, in the maker's units."""

from __future__ import annotations

import math

from pourwright.app.molding.box_reckoned import BoxReckoned
from pourwright.foundation.notation import (
    UnitSystem,
    format_force,
    format_length,
    format_lengths,
    format_share,
)
from pourwright.mold import Panel
from pourwright.mold.box.defaults import BOX
from pourwright.mold.box.fastening import Fastening
from pourwright.mold.box.rows import Row
from pourwright.physics.capstan import capstan_ratio


def corner_words(box: BoxReckoned, found: Fastening) -> str:
    """Say how a fastening is made.

    Parameters
    ----------
    box : BoxReckoned
        The box.
    found : Fastening
        One way of holding the corners.

    Returns
    -------
    str
        With number, places and force; or why not.
    """
    if found.why_not:
        return f"{found.means}: no, {found.why_not}"
    return {"screws": _screws, "clamps": _clamps, "bands": _bands}[found.means](box, found)


def _screws(box: BoxReckoned, found: Fastening) -> str:
    system = box.look.system
    assert found.screw is not None
    return (
        f"{len(found.at)} screws {found.screw.name} a corner, through the side into the edge of the end, "
        f"{_row(found.at, system)}; each bears {format_force(found.bears, system)}, loaded to "
        f"{format_share(found.load / found.bears)}; drill first"
    )


def _clamps(box: BoxReckoned, found: Fastening) -> str:
    system = box.look.system
    flange = format_length(BOX["flange"].value, system)
    text = (
        f"{len(found.at)} clamps a corner, {_row(found.at, system)}, {format_force(found.load, system)} each"
    )
    if box.look.mold.choices.joint.flange:
        return f"{text}; laths of {flange} square are glued and screwed to the ends"
    return f'{text}; they want joint = "flange": sides {flange} longer, a lath on each end'


def _bands(box: BoxReckoned, found: Fastening) -> str:
    system = box.look.system
    at = format_lengths(found.at, system)
    left = format_share(1.0 / capstan_ratio(BOX["friction"].value, math.pi))
    return (
        f"{_bands_told(len(found.at))} round the box, {at} up, {format_force(found.load, system)} each "
        f"at the ratchet; behind two corners {left} of it is left"
    )


def _bands_told(count: int) -> str:
    return "1 ratchet band" if count == 1 else f"{count} ratchet bands"


def _row(at: tuple[float, ...], system: UnitSystem) -> str:
    first, apart = _whole(at[0], system), _whole(at[1] - at[0], system)
    return f"{first} from foot and rim and {apart} apart"


def _whole(length: float, system: UnitSystem) -> str:
    """A place to be marked, to the millimetre."""
    return format_length(length, system, digits=0)


def base_words(box: BoxReckoned, panel: Panel, row: Row | None) -> str:
    """Say how the base board is screwed to a panel.

    Parameters
    ----------
    box : BoxReckoned
        The box.
    panel : Panel
        Side or end.
    row : Row or None
        Screws; None where they do not hold.

    Returns
    -------
    str
        As "4 screws 4.0 × 50 mm up into each side, 70 mm from the corners and 120 mm apart".
    """
    if row is None or box.screw is None:
        return f"along each {panel.name} a lath screwed down on the base board, outside against its foot"
    first, apart = (_whole(length, box.look.system) for length in (row.first, row.spacing))
    screws = f"{row.count} screws {box.screw.name} up into each {panel.name}"
    return f"{screws}, {first} from the corners and {apart} apart"


def often_words(box: BoxReckoned) -> str:
    """Say what to do where screws are taken out at every cast.

    Parameters
    ----------
    box : BoxReckoned
        The box.

    Returns
    -------
    str
        Empty where that does not matter.
    """
    again, casts = BOX["screw_again"].value, box.look.job.mold.casts
    first = box.corners[0]
    if first.means != "screws" or not first.possible or (casts is not None and casts <= again):
        return ""
    clamps = next(found for found in box.corners if found.means == "clamps")
    instead = (
        "bands, or a board that bears clamps on flanges" if clamps.why_not else 'joint = "flange" and clamps'
    )
    return f"An edge of board holds a screw about {again:.0f} times; opened at every cast, rather {instead}."
