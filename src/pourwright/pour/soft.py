"""Where a casting may stay soft, and what helps: one look at a rehearsed plan."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import inf

import numpy as np

from pourwright.geometry import Thickness, measure, plane_section, wall_thickness
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.thin.thickness import MOST_RAYS
from pourwright.physics.cure_law import stalled_conversion
from pourwright.physics.glass_transition import dibenedetto
from pourwright.pour.damp import Air, Damp, damp
from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.faces import empty_mold_by_the_hour
from pourwright.pour.rehearse import Place, Rehearsal
from pourwright.pour.shallow import Cured, Form, Least, cure_of, least_thickness
from pourwright.pour.site import Bed, Site, cure_law
from pourwright.pour.warm_box import WarmBox, warm_box

LEAST_RAYS, MOST_TESTS = 100, 100_000_000
"""Rays through any piece, and rays times triangles that are looked at."""
THIN = 0.45
"""Share of the mean way through a piece below which a place is called thin."""
AROUND = 0.025
"""How far around a place its thinnest way through is looked for [m]."""
LEAST_EDGE = 1e-4
"""A section is taken this far inside the ends of the piece [m]."""


@dataclass(frozen=True)
class Stall:
    """Where cure all but stops in this shop.

    Parameters
    ----------
    shop : float
        Mean temperature of the shop [K].
    cured : float
        Degree of cure at which half of the chemical rate is lost [-]; 1 where it cures through.
    glass_transition : float
        Of resin cured that far [K].
    full : float
        Of the fully cured resin [K].
    """

    shop: float
    cured: float
    glass_transition: float
    full: float

    @property
    def keep_below(self) -> float:
        """Warmest that a piece cured that far should get in use [K]: common practice."""
        return self.glass_transition - DEFAULTS["service_margin"].value

    @property
    def cures_through(self) -> bool:
        """Whether it does not stall."""
        return self.cured >= 1.0


@dataclass(frozen=True)
class Thin:
    """The thinnest of its kind in this plan, taken by itself.

    Parameters
    ----------
    form : Form
        A section of the piece as a rib, a pour as a layer.
    thickness : float
        [m]
    solid_fraction : float
        Of the fill there [-].
    cured : Cured or None
        What becomes of it; None where it is no thin place.
    place : tuple of float or None
        Middle of the section [m].
    number : int or None
        Of the pour.
    """

    form: Form
    thickness: float
    solid_fraction: float
    cured: Cured | None
    place: Place | None = None
    number: int | None = None


@dataclass(frozen=True)
class Where:
    """A place of the casting as somebody sees it who stands before the mold.

    Parameters
    ----------
    height : float
        Up from the mold's floor [m].
    share : float
        The same over the height of the piece [-].
    from_rubber : float
        From there sideways to the rubber [m].
    thickness : float
        Least of the piece around there, straight through [m].
    thin : bool
        Whether that is thin for this piece.
    """

    height: float
    share: float
    from_rubber: float
    thickness: float
    thin: bool


@dataclass(frozen=True)
class Soft:
    """All of it.

    Parameters
    ----------
    stall : Stall
        Of this resin in this shop.
    least : tuple of Least
        Thinnest layer and rib that get hard, neat and with as much glass as the piece has.
    thin : tuple of Thin
        Thinnest section and shallowest pour.
    places : tuple of Where
        Of the least-cured places: one a pour as the next one comes or all is hard, then the same for each
        pour at the end.
    box : WarmBox or None
        A plan for the warm box.
    damp : Damp
        Dew by the hour.
    """

    stall: Stall
    least: tuple[Least, ...]
    thin: tuple[Thin, ...]
    places: tuple[Where, ...]
    box: WarmBox | None
    damp: Damp


def look_at_soft(site: Site, seen: Rehearsal, humidity: float, peak_limit: float) -> Soft:
    """Look for what stays soft, and for damp.

    Parameters
    ----------
    site : Site
        As it was rehearsed.
    seen : Rehearsal
        With its recording, for the warm box.
    humidity : float
        Of the shop when it is warmest [-].
    peak_limit : float
        Hottest that resin and rubber may get [K].

    Returns
    -------
    Soft
        The same for the same inputs.
    """
    rays = max(LEAST_RAYS, min(MOST_RAYS, MOST_TESTS // len(site.piece.faces)))
    walls = wall_thickness(site.piece, rays)
    begin = seen.pours[0].start
    places = [*(pour.least_cured_place for pour in seen.pours), *(each.place for each in seen.softest)]
    return Soft(
        stall_in(site),
        tuple(_least(site, begin, peak_limit)),
        (_section(site, walls, begin, peak_limit), _shallowest(site, seen, peak_limit)),
        tuple(whereabouts(site.piece, walls, place) for place in places),
        warm_box(site, seen, peak_limit),
        damp(Air(site.climate, humidity), seen.pours, empty_mold_by_the_hour(site, begin)),
    )


def stall_in(site: Site) -> Stall:
    """Say how far the resin cures in this shop in the days of a casting.

    Parameters
    ----------
    site : Site
        With resin and shop.

    Returns
    -------
    Stall
        At the shop's mean temperature.
    """
    law = cure_law(site.resin.cure)
    shop = site.climate.mean
    cured = min(float(stalled_conversion(shop, law)), 1.0)
    return Stall(shop, cured, float(dibenedetto(cured, *law.glass)), law.glass_transition_full)


def _least(site: Site, begin: float, limit: float) -> Iterator[Least]:
    fills = sorted({0.0, max(bed.solid_fraction for bed in site.beds)})
    for solid in fills:
        for form in Form:
            yield least_thickness(site, form, solid, begin=begin, limit=limit)


def _section(site: Site, walls: Thickness, begin: float, limit: float) -> Thin:
    """The thinnest section as a rib by itself, which is the safe side: what it hangs on warms it."""
    thinnest = walls.thinnest(DEFAULTS["thin_share"].value)
    thickness = float(walls.through[thinnest])
    x, y, z = (float(value) for value in walls.middles[thinnest])
    solid = _bed(site, z).solid_fraction
    cured = _by_itself(site, Form.RIB, thickness, solid, begin, limit)
    return Thin(Form.RIB, thickness, solid, cured, place=(x, y, z))


def _shallowest(site: Site, seen: Rehearsal, limit: float) -> Thin:
    """The shallowest pour as a layer on rubber."""
    pours = seen.pours
    number = min(range(len(pours)), key=lambda n: pours[n].upper - pours[n].lower)
    pour = pours[number]
    depth, solid = pour.upper - pour.lower, _bed(site, (pour.upper + pour.lower) / 2).solid_fraction
    cured = _by_itself(site, Form.LAYER, depth, solid, pour.start, limit)
    return Thin(Form.LAYER, depth, solid, cured, number=number + 1)


def _by_itself(
    site: Site, form: Form, thickness: float, solid: float, begin: float, limit: float
) -> Cured | None:
    if thickness > DEFAULTS["thickest"].value:
        return None
    watch = DEFAULTS["stall_after"].value
    return cure_of(site, form, thickness, solid, begin=begin, limit=limit, watch=watch)


def _bed(site: Site, height: float) -> Bed:
    return next((bed for bed in site.beds if height <= bed.upper), site.beds[-1])


def whereabouts(piece: Mesh, walls: Thickness, place: Place) -> Where:
    """Tell where a place is.

    Parameters
    ----------
    piece : Mesh
        In the pour frame [m].
    walls : Thickness
        Of the same piece.
    place : tuple of float
        Inside it [m].

    Returns
    -------
    Where
        Measured in the level section through it.
    """
    height = float(piece.bounds[1, 2])
    level = min(max(place[2], LEAST_EDGE), height - LEAST_EDGE)
    outlines = plane_section(piece, "z", level)
    away = min((_away(np.array(place[:2]), outline) for outline in outlines), default=inf)
    off = np.sqrt(((walls.places - np.array(place)) ** 2).sum(axis=1))
    thickness = float(walls.through[off <= max(AROUND, float(off.min()))].min())
    body = measure(piece)
    # the mean way through any body is 4 V / A (Cauchy); through a plate it is twice its thickness
    usual = 4.0 * body.volume / body.area
    return Where(place[2], place[2] / height, away, thickness, thickness < THIN * usual)


def _away(point: Floats, outline: Floats) -> float:
    """Distance from a point to a closed outline."""
    way = np.roll(outline, -1, axis=0) - outline
    since = point - outline
    along = np.clip((since * way).sum(axis=1) / np.maximum((way * way).sum(axis=1), 1e-30), 0.0, 1.0)
    return float(np.sqrt(((since - along[:, None] * way) ** 2).sum(axis=1)).min())
