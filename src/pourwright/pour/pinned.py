"""Surroundings that are pinned for a check instead of those of a shop."""

from __future__ import annotations

from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.films import tabulated_film
from pourwright.pour.site import Site
from pourwright.solver import Exchange, Surfaces


def surfaces_of(site: Site) -> Surfaces | None:
    """Choose the exchange at bare faces where it is not that of a mold on a bench.

    Parameters
    ----------
    site : Site
        With `film` or `bare`, or without both.

    Returns
    -------
    Surfaces or None
        None for a mold in its box.
    """
    air = site.climate.temperature
    if site.film is not None:
        return Surfaces.all(Exchange(site.film, air))
    return _in_still_air(site) if site.bare else None


def _in_still_air(site: Site) -> Surfaces:
    """A casting that hangs free: natural convection and radiation on every face."""
    width, depth = site.block.inside
    flat = width * depth / (2 * (width + depth))

    def face(looks: str, length: float) -> Exchange:
        emissivity = DEFAULTS["open_emissivity"].value
        film = tabulated_film(site.climate.typical, length, looks, emissivity)
        return Exchange(film, site.climate.temperature)

    upright = face("upright", site.block.height)
    up, down = face("facing up", flat), face("facing down", flat)
    return Surfaces(upright, upright, upright, upright, down, up, up, upright, down)
