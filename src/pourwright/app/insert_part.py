"""Inserts as told in plan and mold: what is around them, how they are held and sealed, what to mind."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from pourwright.foundation.notation import UnitSystem, format_length
from pourwright.geometry.mesh import Floats
from pourwright.jobs import plan_inserts
from pourwright.jobs.plan_part import Point
from pourwright.mold.hollow.defaults import INSERTS
from pourwright.mold.hollow.insert import Insert, apart, lift_of
from pourwright.physics.constants import STANDARD_GRAVITY
from pourwright.physics.spreading import heat_from_disc

SEALED = {
    "socket": "a waxed bolt in its thread, tape under its flange; free of grease and roughened outside",
    "tube": "both ends plugged with wax or a rubber stopper, taped; a pull cord in it before it is plugged",
    "light": "a plug of silicone or waxed wood, tapered by 2 degrees, leaves the recess and comes out after",
}
HELD = {
    "top": "hangs by its bolt or plug from a bar across the mouth",
    "bottom": "stands on a peg through the rubber's floor, screwed to the board under it",
}
BESIDE = "sits on a peg through the rubber's wall, screwed to the panel behind it"
SOCKET = (
    "How much a leg or a bolt may carry is not reckoned: pull one out of a trial casting, and have legs, "
    "tipping and anything that hangs over people judged by somebody licensed to."
)
LIGHT = (
    "Lights in a casting: extra-low voltage only, from a closed supply that stays outside. Mains voltage in "
    "or on a casting is work for a licensed electrician, by local code."
)


def insert_parts(
    inserts: Sequence[Insert], density: float, factor: float, conductivity: float, warmest: float | None
) -> list[plan_inserts.Insert]:
    """Write inserts.

    Parameters
    ----------
    inserts : sequence of Insert
        In their places.
    density : float
        Of the densest thing that is poured [kg/m3].
    factor : float
        Safety factor.
    conductivity : float
        Of the casting where it conducts least [W/(m K)].
    warmest : float, optional
        What a casting in use may have [K]; None where a light does it no harm.

    Returns
    -------
    list of plan_inserts.Insert
        Parts of a document.
    """
    return [_part(one, density, factor, conductivity, warmest) for one in inserts]


def _part(
    insert: Insert, density: float, factor: float, conductivity: float, warmest: float | None
) -> plan_inserts.Insert:
    choice, force = insert.choice, lift_of(insert, density)
    heat = None
    if choice.kind == "light" and warmest is not None:
        warmer = max(warmest - INSERTS["light_air"].value, 0.0)
        heat = float(heat_from_disc(choice.diameter, conductivity, warmer))
    return plan_inserts.Insert(
        name=choice.name,
        kind=choice.kind,
        face=choice.face,
        from_m=_point(insert.entry),
        to_m=_point(insert.end),
        diameter_m=choice.diameter,
        depth_m=insert.depth,
        ends=insert.ends,
        edge_m=insert.edge,
        edge_needed_m=insert.edge_needed,
        beside_core=insert.beside_core,
        beyond_m=insert.beyond,
        volume_m3=insert.volume,
        mass_kg=insert.mass,
        force_N=force,
        weight_needed_kg=max(factor * force / STANDARD_GRAVITY, 0.0),
        most_heat_W=heat,
        held=HELD.get(choice.face, BESIDE),
        sealed=SEALED[choice.kind],
    )


def _point(place: Floats) -> Point:
    x, y, z = (round(float(value), 6) + 0.0 for value in place)
    return (x, y, z)


def insert_warnings(inserts: Sequence[Insert], units: UnitSystem) -> Iterator[str]:
    """Name sockets that are near an edge or each other.

    Parameters
    ----------
    inserts : sequence of Insert
        In their places.
    units : UnitSystem
        What the maker reads.

    Yields
    ------
    str
    """
    rule = INSERTS["edge_in_diameters"].value
    sockets = [one for one in inserts if one.choice.kind == "socket"]
    for one in sockets:
        if one.edge < rule * one.choice.diameter - 1e-6:
            edge, better = (format_length(value, units) for value in (one.edge, rule * one.choice.diameter))
            yield f"{one.choice.name}: {edge} from axis to edge; {better} is better, {rule:g} diameters."
    for one, other in combinations(sockets, 2):
        wide = (one.choice.diameter + other.choice.diameter) / 2
        between = apart(one, other) + wide
        if between < rule * wide - 1e-6:
            near, better = (format_length(value, units) for value in (between, rule * wide))
            yield (
                f"{one.choice.name} and {other.choice.name} lie {near} apart; {better} is better, "
                f"{rule:g} diameters from axis to axis."
            )


def insert_cautions(inserts: Sequence[Insert]) -> Iterator[str]:
    """Say what inserts may not be trusted with."""
    kinds = {one.choice.kind for one in inserts}
    if "socket" in kinds:
        yield SOCKET
    if "light" in kinds:
        yield LIGHT
