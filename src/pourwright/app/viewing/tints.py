"""Tints of the piece, face by face: lean, undercut and thickness."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt
from scipy.ndimage import binary_dilation

from pourwright.geometry import Mesh
from pourwright.geometry.mesh import Floats
from pourwright.geometry.ray_tree import SurfaceTree, surface_tree
from pourwright.geometry.shown import refined
from pourwright.geometry.thin.inscribed import NEAR, ball_through
from pourwright.geometry.ways_up.drafts import ROUND_OFF, draft_angles
from pourwright.geometry.ways_up.held import Held, held_regions

Singles = npt.NDArray[np.float32]
UP = np.array([0.0, 0.0, 1.0])
"""The piece goes out through its open face, as it is poured."""
FINE, FACES = 80.0, 20_000
"""Faces are cut to this share of the longest side, in rounds that begin with no more than so many."""
THICK = 0.04
"""Beyond it a straight ray is good enough [m]."""
RIM = 2
"""Columns by which a region may be wider than those it was found in."""
TINTS = ("draft", "undercut", "thickness")


def tinted(shown: Mesh) -> Mesh:
    """Cut a shown surface fine enough to be tinted face by face.

    Parameters
    ----------
    shown : Mesh
        As thinned.

    Returns
    -------
    Mesh
    """
    return refined(shown, float(np.ptp(shown.bounds, axis=0).max()) / FINE, FACES)


@dataclass(frozen=True, eq=False)
class Tinting:
    """What the tints of a piece are reckoned from.

    Parameters
    ----------
    whole : Mesh
        The piece itself, in the pour frame.
    faces : Mesh
        What is tinted: its own faces, cut finer, or those of a thinned surface.
    off : float
        How far those lie from the piece's own at most [m].
    """

    whole: Mesh
    faces: Mesh
    off: float

    def values(self, tint: str) -> Singles:
        """Values of one tint, one for each face: [deg], [m], [m]; not a number where there is none."""
        made = {"draft": self.draft, "undercut": self.undercut, "thickness": self.thickness}[tint]
        return made().astype(np.float32)

    def draft(self) -> Floats:
        """Lean of every face against the way out [deg]; below 0 it is undercut, not a number at the mouth."""
        return draft_angles(self.faces, UP)

    def undercut(self) -> Floats:
        """How far the rubber in front of every face reaches in behind the piece [m]; 0 where none does.

        A face that leans over rubber of which next to none is held back has a thousandth of a millimetre.
        """
        middles = self.faces.triangles.mean(axis=1)
        reach = np.where(self.draft() < -ROUND_OFF, 1e-6, 0.0)
        for region in held_regions(self.whole, UP):
            reach[_before(region, middles) & (reach > 0)] = region.depth
        return reach

    def thickness(self) -> Floats:
        """Thickness behind every face [m]: the largest ball that fits, a straight ray from 40 mm on."""
        tree = surface_tree(self.whole)
        places, inward = self._on_the_piece(tree)
        found = np.full(len(places), np.nan)
        on = np.isfinite(places[:, 0])
        found[on] = ball_through(tree, places[on], inward[on], THICK)
        found[~np.isfinite(found)] = np.nan
        return found

    def _on_the_piece(self, tree: SurfaceTree) -> tuple[Floats, Floats]:
        """Middles of the faces, laid onto the piece itself where they lie beside it, and the way inward."""
        vectors = self.faces.area_vectors
        lengths = np.linalg.norm(vectors, axis=1, keepdims=True)
        inward = -np.divide(vectors, lengths, out=np.zeros_like(vectors), where=lengths > 0)
        middles = self.faces.triangles.mean(axis=1)
        if self.off == 0.0:
            return middles, inward
        begin = middles - 2 * self.off * inward
        ways, rows = tree.hits(begin, inward, NEAR * tree.size)
        far = ways > 5 * self.off
        ways[far] = np.nan
        return begin + ways[:, None] * inward, -tree.normals[rows]


def _before(region: Held, places: Floats) -> npt.NDArray[np.bool_]:
    """Which places a held region lies in front of."""
    slack = 0.02 * (region.highest - region.lowest)
    high = (places[:, 2] >= region.lowest - slack) & (places[:, 2] <= region.highest + slack)
    # a face at the rim of the region lies between two columns
    wide = replace(region.footprint, inside=binary_dilation(region.footprint.inside, iterations=RIM))
    return high & wide.over(places)
