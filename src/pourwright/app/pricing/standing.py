"""How a piece stands: what tips it over, and what a test of its kind would ask."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from pourwright.app.pricing.loads import LOADS
from pourwright.app.pricing.planned import Planned
from pourwright.app.shaping.piece import PieceRead
from pourwright.foundation.notation import UnitSystem, format_force, format_length, format_load
from pourwright.geometry.footing import Footing, footing_of
from pourwright.geometry.mesh import Floats
from pourwright.physics.constants import STANDARD_GRAVITY
from pourwright.physics.standing import tilt_angle, tipping_moments
from pourwright.sheets.wording import UPRIGHT

UNSTEADY = 10.0
"""Below this angle a piece is fastened; common practice [deg]."""
HEAVIEST = 300.0
"""A load at the edge beyond which nobody asks [kg]."""


@dataclass(frozen=True)
class Stance:
    """A piece on its own foot.

    Parameters
    ----------
    tilt : float
        It tips over once it leans by more [deg]; 0 where it does not stand by itself.
    edge : float or None
        Mass at its outermost edge that tips it [kg]; None where nothing reaches beyond the foot.
    holds, tips : float
        Moments under the load of a seat test [N m].
    """

    tilt: float
    edge: float | None
    holds: float
    tips: float


def stance_of(planned: Planned, piece: PieceRead) -> Stance | None:
    """Reckon how a piece stands.

    Parameters
    ----------
    planned : Planned
        For its mass, by band.
    piece : PieceRead
        Its body as poured.

    Returns
    -------
    Stance or None
        None for a piece that is hollow, lies on its side as it is poured, or has no foot.
    """
    hollow = planned.plan is not None and planned.plan.hollow is not None
    if hollow or planned.piece.up not in UPRIGHT:
        return None
    foot = footing_of(piece.mesh, flipped=planned.piece.flipped)
    if foot is None:
        return None
    x, y, _ = (float(each) for each in piece.solid.centroid)
    up = _centre(planned, piece)
    size = float(piece.solid.size[2])
    return _stance(
        foot, np.asarray([x, y]), size - up if planned.piece.flipped else up, size, planned.piece.mass_kg
    )


def _centre(planned: Planned, piece: PieceRead) -> float:
    """Height of the centre of mass as poured [m]; glass makes a band heavier."""
    bands = () if planned.plan is None else planned.plan.fill.bands
    bottom = piece.levels.bottom
    whole = float(piece.solid.centroid[2]) - bottom
    weights = [band.glass_kg + band.resin_kg for band in bands]
    if not sum(weights):
        return whole
    top = piece.levels.top
    places = [
        _middle(piece, *(min(bottom + edge, top) for edge in (band.from_m, band.to_m))) - bottom
        for band in bands
    ]
    return float(np.average(places, weights=weights))


def _middle(piece: PieceRead, low: float, high: float) -> float:
    """Height of the centre of volume between two levels [m]."""
    levels = np.linspace(low, high, 65)
    slices = np.diff(piece.levels.volume(levels))
    middles = 0.5 * (levels[1:] + levels[:-1])
    return float(np.average(middles, weights=slices)) if slices.sum() > 0 else 0.5 * (low + high)


def _stance(foot: Footing, centre: Floats, height: float, size: float, mass: float) -> Stance:
    weight, inside = mass * STANDARD_GRAVITY, foot.inside(centre)
    least = float(inside.min())
    if least <= 0:
        return Stance(0.0, None, 0.0, 0.0)
    over = foot.beyond > 1e-4
    edge = float((mass * inside[over] / foot.beyond[over]).min()) if over.any() else None
    moments = [
        tipping_moments(
            weight, float(reach), LOADS["edge"].value, float(above) - LOADS["edge_inwards"].value,
            LOADS["edge_sideways"].value, size,
        )
        for reach, above in zip(inside, foot.above, strict=True)
    ]  # fmt: skip
    holds, tips = max(moments, key=lambda each: each[1] - each[0])
    return Stance(math.degrees(tilt_angle(least, height)), edge, holds, tips)


def stands_words(stance: Stance, units: UnitSystem) -> str:
    """Say to a buyer how a piece stands."""
    return " ".join(_stands(stance, units))


def _stands(stance: Stance, units: UnitSystem) -> Iterator[str]:
    if not stance.tilt:
        yield "It does not stand by itself: fasten it."
        return
    yield f"It tips over once it leans by {stance.tilt:.0f}°, reckoned for its own foot on a hard floor."
    if stance.tilt < UNSTEADY:
        yield "Fasten it."
    if stance.edge is not None and stance.edge < HEAVIEST:
        yield f"So does a load of {format_load(stance.edge, units)} at its outermost edge."


def asked_words(stance: Stance | None, units: UnitSystem) -> Iterator[str]:
    """Say to the maker what tests of seats and tables ask for, and what is known of it."""
    said = {name: format_force(LOADS[name].value, units) for name in LOADS if LOADS[name].unit == "N"}
    yield (
        "What it bears was not reckoned, and no test stands behind it. Who sells a seat for a home has it "
        f"tried with {said['seat']} down on the seat and {said['back']} against a back, each "
        f"{LOADS['times'].value:.0f} times (EN 12520), a table with {said['table']} down and "
        f"{said['table_sideways']} level (EN 12521); these numbers are from memory: read the standard."
    )
    heaviest = format_load(LOADS["grown_up"].value, units)
    inwards = format_length(LOADS["edge_inwards"].value, units)
    yield (
        f"Against tipping seats are tried for people of up to {heaviest} (EN 1022), with {said['edge']} down "
        f"{inwards} in from the edge and {said['edge_sideways']} outwards, from memory."
    )
    yield _under_test(stance)


def _under_test(stance: Stance | None) -> str:
    if stance is None:
        return "How it stands was not reckoned: it is hollow, poured on its side, or has no flat foot."
    if not stance.tilt:
        return "By itself it does not stand at all."
    if stance.tips <= 0:
        return "Under this load nothing tips it: it presses well within the foot."
    would = "it would tip" if stance.tips > stance.holds else "it would stand"
    return (
        f"Under this load {stance.holds:.0f} N m hold it at the worst edge of its foot and "
        f"{stance.tips:.0f} N m tip it: {would}, by its own weight alone, without feet."
    )
