"""Shapes that are sawn slice by slice with steps left, and sanded down to the true surface."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import numpy as np

from pourwright.geometry import Mesh
from pourwright.geometry.drawn.joining import as_manifold
from pourwright.geometry.drawn.outlines_offset import inset, loops_of
from pourwright.geometry.mesh import Floats
from pourwright.mold.wood.master_cuts import Cut, heights

_SCALE = 1000.0
_NUDGE = 1e-7
_SMOOTH = 1e-4
_FINE = 2e-3
_FEW = 400
_ROUND = 1e-5
_LOOKS = 5
_FLATS = 8
_NOTHING = 1e-3


def sliced(mesh: Mesh, thickness: float, oversize: float) -> list[Cut]:
    """Cut a shape into level layers, each sawn so that it holds all of the shape within it.

    Parameters
    ----------
    mesh : Mesh
        In the frame of the pour [m].
    thickness : float
        Of a board [m].
    oversize : float
        Left all around beside what the shape needs [m].

    Returns
    -------
    list of Cut
        From the bottom up.

    Notes
    -----
    The outline is the shadow of the layer, the union of all its sections: sanding only takes wood away.
    """
    body = as_manifold(mesh)
    low, high = (float(end) for end in mesh.bounds[:, 2])
    ends = heights(low, high, thickness)
    flats = np.unique(np.round(mesh.vertices[:, 2], 6))
    found = []
    for below, above in pairwise(ends):
        outline = _outline(body, below, above)
        if oversize > 0:
            outline = inset(outline, -oversize, _ROUND)
        looks = _looks(below, above, flats)
        found.append(Cut(below, above, outline, _sand(outline, body, looks)))
    return found


def _outline(body: Any, low: float, high: float) -> Any:
    """Shadow of a layer; faces that just touch it from beside do not count."""
    above = body.trim_by_plane((0.0, 0.0, 1.0), (low + _NUDGE) * _SCALE)
    layer = above.trim_by_plane((0.0, 0.0, -1.0), -(high - _NUDGE) * _SCALE)
    return _eased(layer.project().simplify(_SMOOTH))


def _eased(section: Any) -> Any:
    """Leave corners out that no saw follows, outward, never inward."""
    for slack in (0.02, 0.05, 0.1):
        if section.num_vert() <= _FEW:
            break
        eased = inset(section, -slack / _SCALE, slack / 4 / _SCALE).simplify(slack / 2)
        if (section - eased).area() <= _NOTHING:
            section = eased
    return section


def _looks(low: float, high: float, flats: Floats) -> Floats:
    """Heights at which a layer is looked at [m]."""
    nudge = 10 * _NUDGE
    even = np.linspace(low + nudge, high - nudge, _LOOKS)
    inside = flats[(flats > low + nudge) & (flats < high - nudge)]
    if len(inside) > _FLATS:
        return even
    return np.sort(np.concatenate([even, inside - nudge, inside + nudge]))


def _sand(outline: Any, body: Any, looks: Floats) -> float:
    """Farthest that any wood of a layer lies beside the shape at the same height [m]."""
    sections = [_section(body, float(height)) for height in looks]
    # above a tip there is nothing to measure from
    return max((farthest(outline, section) for section in sections if section.area() > 0), default=0.0)


def _section(body: Any, height: float) -> Any:
    section = body.slice(height * _SCALE)
    plain = section.simplify(_FINE)
    return plain if plain.area() > 0 else section


def farthest(outer: Any, inner: Any) -> float:
    """Find how far any place in a region lies from another region inside it.

    Parameters
    ----------
    outer, inner : CrossSection
        In mm.

    Returns
    -------
    float
        [m]; exact where the farthest place is a corner, else to a fiftieth of a millimetre.

    Examples
    --------
    >>> from pourwright.geometry.drawn.outlines_offset import as_section
    >>> square = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])
    >>> round(farthest(as_section([square]), as_section([square * 0.5])), 6)
    0.707107
    """
    if (outer - inner).area() <= _NOTHING:
        return 0.0
    least = _to_rim(np.concatenate(loops_of(outer)), loops_of(inner))
    if not _beyond(outer, inner, least * 1.003 + 2e-5):
        return least
    left, low, right, high = outer.bounds()
    most = float(np.hypot(right - left, high - low)) / _SCALE
    while most - least > 2e-5:
        middle = (least + most) / 2
        least, most = (middle, most) if _beyond(outer, inner, middle) else (least, middle)
    return most


def _beyond(outer: Any, inner: Any, reach: float) -> bool:
    grown = inset(inner, -reach, max(reach * 1e-3, 1e-6))
    return bool((outer - grown).area() > _NOTHING)


def _to_rim(points: Floats, loops: list[Floats]) -> float:
    """Largest distance of points to the nearest line of the loops, those inside counted too."""
    x, y = np.concatenate(loops).T
    u, v = np.concatenate([np.roll(loop, -1, axis=0) - loop for loop in loops]).T
    squares = np.maximum(u * u + v * v, 1e-30)
    worst = 0.0
    for few in np.array_split(points, max(1, len(points) * len(x) // 50_000)):
        left, low = few[:, :1] - x, few[:, 1:] - y
        share = np.clip((left * u + low * v) / squares, 0.0, 1.0)
        off = (left - share * u) ** 2 + (low - share * v) ** 2
        worst = max(worst, float(off.min(axis=1, initial=np.inf).max(initial=0.0)))
    return float(np.sqrt(worst))
