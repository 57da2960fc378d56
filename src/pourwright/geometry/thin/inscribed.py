"""How thick a body is all over: the largest ball that touches each place and a side that faces it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.foundation.checks import Range, checked
from pourwright.geometry.mesh import Floats, Integers, Mesh
from pourwright.geometry.ray_tree import FACING, SurfaceTree, surface_tree
from pourwright.geometry.thin.edge_lines import edge_folds

NEAR = 1e-9
"""Hits nearer than this share of the body's size are the surface that the ray starts from."""
FEWEST, MOST = 200, 3000
"""Places from which a ball is shrunk in any case, and at most: the thinnest."""
HOSTS, DIVISIONS, INSET = 120, 4, 1e-3
"""Triangles that are looked at again, in how many steps a side, and how far from their edges [-]."""
FOLDED = np.radians(10.0)
"""Edges that fold inward by more are looked from, and a ball may touch them."""
BLIND = 1e-6
"""A straight look between two places that ends this share before the second is blocked."""


@dataclass(frozen=True, slots=True, eq=False)
class ThicknessMap:
    """Thickness at places of a surface.

    Parameters
    ----------
    places : array (n, 3)
        On the surface [m].
    inward : array (n, 3)
        Straight into the body there [-].
    rays : array (n,)
        Straight inward to the other side, as a drill would read it [m].
    balls : array (n,)
        Diameter of the largest ball that touches the place and no side that faces it, as calipers turned
        to and fro would read it; the ray where no ball was shrunk [m].
    middles : array (n, 3)
        Centre of that ball [m].
    spacings : array (n,)
        About how far it is to the next place [m].
    tree : SurfaceTree
        Of the surface, for further questions.
    """

    places: Floats
    inward: Floats
    rays: Floats
    balls: Floats
    middles: Floats
    spacings: Floats
    tree: SurfaceTree


@checked(count=Range(1, 1_000_000), thick=Range(0, unit="m", open_low=True))
def thickness_map(mesh: Mesh, count: int = 6000, thick: float = 1e9) -> ThicknessMap:
    """Measure a body from many places, more of them where it is thin.

    Parameters
    ----------
    mesh : Mesh
        Closed, outward oriented, without faults. Turned inside out it gives the space between its parts.
    count : int
        Places to begin with: every triangle has one where there are no more triangles than that, and the
        rest lie where the surface is.
    thick : float
        Beyond it the ray is good enough [m].

    Returns
    -------
    ThicknessMap
        Of the places that have another side facing them within 45 degrees; the others, near edges, are
        left out.

    Notes
    -----
    A ray across a wedge of angle a overstates what fits in between by tan(a) / (2 tan(a / 2)), a fifth at 45
    degrees. A ball that touches at p with inward normal n and reaches q has at most the radius
    |q - p|^2 / (2 n . (q - p)); shrunk so until nothing reaches into it, it is the ball of the medial axis:
    Ma, Bae and Choi, Visual Comput. 28 (2012) 7 (from memory). Here only sides that face the place count,
    for beside an edge, and at each facet of a round surface, a plain ball is as small as one likes. The
    triangles themselves are met, not samples of them; and the inner corners, from which it is looked along
    the middle between their sides.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> found = thickness_map(box([0.2, 0.1, 0.01]), 200)
    >>> found.balls.min().round(6), found.balls.max().round(6)
    (np.float64(0.01), np.float64(0.2))
    """
    tree = surface_tree(mesh, _creases(mesh))
    first = _read(tree, *_spread_out(tree, count), thick)
    hosts = _thinnest(first[2], first[6])
    return _map(tree, first, _read(tree, *_lattice(tree, hosts), thick))


def ball_through(tree: SurfaceTree, places: Floats, inward: Floats, thick: float = np.inf) -> Floats:
    """Thickness at given places of a surface, whether a side faces them or not.

    Parameters
    ----------
    tree : SurfaceTree
        Of the surface.
    places, inward : array (n, 3)
        On it [m], and straight inward there [-].
    thick : float
        Beyond it the ray is good enough [m].

    Returns
    -------
    array (n,)
        Diameter of the largest ball that touches no side that faces the place; the ray where there is none,
        infinite where that leaves the surface for good [m].

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> tree = surface_tree(box([0.2, 0.1, 0.01]))
    >>> ball_through(tree, np.array([[0.05, 0.0, 0.01]]), np.array([[0.0, 0.0, -1.0]])).round(6).tolist()
    [0.01]
    """
    rays = tree.hits(places, inward, NEAR * tree.size)[0]
    found = rays.copy()
    met = rays < thick
    found[met] = _balls(tree, places[met], inward[met], rays[met])
    return found


def _creases(mesh: Mesh) -> tuple[Floats, Floats, Integers]:
    """Ends of the inner corners, the middle between the normals there, and a face of each."""
    folds = edge_folds(mesh)
    kept = folds.turns > FOLDED
    halves = folds.halves[kept]
    start, end = mesh.faces.ravel()[halves], np.roll(mesh.faces, -1, axis=1).ravel()[halves]
    normals = folds.normals[halves // 3] + folds.normals[folds.twins[halves] // 3]
    return np.stack([mesh.vertices[start], mesh.vertices[end]], axis=1), normals, halves // 3


Read = tuple[Floats, Floats, Floats, Floats, Floats, Floats, Integers]


def _map(tree: SurfaceTree, first: Read, again: Read) -> ThicknessMap:
    places, inward, rays, balls, middles, spacings = (
        np.concatenate([one, other]) for one, other in zip(first[:6], again[:6], strict=True)
    )
    return ThicknessMap(places, inward, rays, balls, middles, spacings, tree)


def _thinnest(rays: Floats, rows: Integers) -> Integers:
    """Triangles that hold the thinnest places."""
    order = np.argsort(rays, kind="stable")[: 4 * HOSTS]
    _, first = np.unique(rows[order], return_index=True)
    return np.asarray(rows[order][np.sort(first)[:HOSTS]])


def _spread_out(tree: SurfaceTree, count: int) -> tuple[Floats, Integers, Floats]:
    """Places over the whole surface, the triangles they lie in, and how far apart they are."""
    sides = tree.triangles[:, 1:] - tree.triangles[:, :1]
    areas = np.linalg.norm(np.cross(sides[:, 0], sides[:, 1]), axis=1) / 2
    shares = areas / areas.sum()
    # an inner corner has no area
    areas = np.where(areas > 0, areas, (sides**2).sum(axis=2).max(axis=1))
    if len(areas) <= count:
        shares = np.maximum(shares, 1.0 / count)
    else:
        # small triangles are where the shape has its detail
        roots = np.sqrt(areas)
        shares = (shares + roots / roots.sum()) / 2
    ends = np.cumsum(shares) * count
    rows = np.searchsorted(ends, np.arange(int(ends[-1] + 1e-9)) + 0.5)
    rows = np.minimum(rows, len(areas) - 1)
    held = np.bincount(rows, minlength=len(areas))
    return spread(tree.triangles[rows]), rows, np.sqrt(areas[rows] / held[rows])


def spread(triangles: Floats) -> Floats:
    """Put one place in each triangle, by the sequence of the plastic number folded into it.

    Parameters
    ----------
    triangles : array (n, 3, 3)
        Corners; a triangle may come often.

    Returns
    -------
    array (n, 3)

    Examples
    --------
    >>> spread(np.array([[[0.0, 0.0, 0.0], [4.0, 0.0, 0.0], [0.0, 4.0, 0.0]]])).round(3).tolist()
    [[2.0, 2.0, 0.0]]
    """
    number = np.arange(len(triangles))[:, None]
    u, v = np.mod(0.5 + number * np.array([0.7548776662466927, 0.5698402909980532]), 1.0).T
    folded = u + v > 1.0
    u, v = np.where(folded, 1.0 - u, u)[:, None], np.where(folded, 1.0 - v, v)[:, None]
    a, b, c = triangles[:, 0], triangles[:, 1], triangles[:, 2]
    return np.asarray(a + u * (b - a) + v * (c - a))


def _lattice(tree: SurfaceTree, rows: Integers) -> tuple[Floats, Integers, Floats]:
    """Places over some triangles, right into their corners."""
    n = DIVISIONS
    steps = np.array([(i, j, n - i - j) for i in range(n + 1) for j in range(n + 1 - i)]) / n
    weights = INSET + (1 - 3 * INSET) * steps
    places = np.einsum("lc,tck->tlk", weights, tree.triangles[rows]).reshape(-1, 3)
    longest = np.linalg.norm(tree.triangles[rows] - np.roll(tree.triangles[rows], 1, axis=1), axis=2).max(
        axis=1
    )
    return places, np.repeat(rows, len(weights)), np.repeat(longest / n, len(weights))


def _read(tree: SurfaceTree, places: Floats, rows: Integers, spacings: Floats, thick: float) -> Read:
    """Look inward from places, and shrink balls where it is thin."""
    inward = -tree.normals[rows]
    rays, others = tree.hits(places, inward, NEAR * tree.size)
    facing = np.einsum("nk,nk->n", inward, tree.normals[others]) >= FACING
    kept = np.isfinite(rays) & facing
    places, inward, rays, spacings, rows = (x[kept] for x in (places, inward, rays, spacings, rows))
    order = np.argsort(rays, kind="stable")
    wanted = order[: np.clip(np.searchsorted(rays[order], thick), FEWEST, MOST)]
    balls = rays.copy()
    balls[wanted] = _balls(tree, places[wanted], inward[wanted], rays[wanted])
    return places, inward, rays, balls, places + balls[:, None] / 2 * inward, spacings, rows


def _balls(tree: SurfaceTree, places: Floats, inward: Floats, rays: Floats) -> Floats:
    """Diameter of the ball at each place; the ray where what stops the ball is not opposite or not seen."""
    radii, rows, touched = tree.balls(places, inward, rays / 2)
    across = touched - places
    lengths = np.linalg.norm(across, axis=1)
    # from the centre the touched place must lie ahead, within the same angle as the sides
    ahead = np.einsum("nk,nk->n", across, inward) - radii >= FACING * radii
    ways = np.divide(across, lengths[:, None], out=inward.copy(), where=lengths[:, None] > 0)
    seen = tree.hits(places, ways, NEAR * tree.size)[0] >= (1 - BLIND) * lengths
    return np.asarray(np.where((rows >= 0) & ahead & seen, 2 * radii, rays))
