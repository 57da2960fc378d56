"""Sections of a measured body: ellipses, and rectangles with rounded corners."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.geometry.mesh import Floats


@dataclass(frozen=True, slots=True)
class CrossSection:
    """One level section, centred on the axis.

    Parameters
    ----------
    width, depth : float
        Along x and y [m].
    corner : float, optional
        Radius of the corners of a rectangle [m]; None for an ellipse.
    """

    width: float
    depth: float
    corner: float | None = None

    @property
    def area(self) -> float:
        """Of the section [m2].

        Examples
        --------
        >>> round(CrossSection(0.2, 0.1, 0.0).area, 9), round(CrossSection(0.2, 0.2, 0.1).area, 6)
        (0.02, 0.031416)
        """
        if self.corner is None:
            return float(np.pi / 4 * self.width * self.depth)
        return float(self.width * self.depth - (4 - np.pi) * self.corner**2)

    def reach(self, angles: Floats) -> Floats:
        """How far the outline lies beyond the inscribed ellipse, along each of its directions.

        Parameters
        ----------
        angles : array (n,)
            Of the directions (width/2 cos, depth/2 sin) [rad].

        Returns
        -------
        array (n,)
            1 on the ellipse itself [-].

        Examples
        --------
        >>> CrossSection(0.2, 0.1, 0.0).reach(np.array([0.0, np.pi / 4])).round(6).tolist()
        [1.0, 1.414214]
        """
        if self.corner is None:
            return np.ones(len(angles))
        directions = np.abs(np.stack([self.width * np.cos(angles), self.depth * np.sin(angles)])) / 2
        return _to_rounded_rectangle(directions, np.array([self.width, self.depth]) / 2, self.corner)


def _to_rounded_rectangle(directions: Floats, half: Floats, corner: float) -> Floats:
    """Stretch of each direction until it meets the outline, in the first quarter."""
    with np.errstate(divide="ignore"):
        flat = np.min(half[:, None] / np.maximum(directions, 1e-300), axis=0)
    center = half - corner
    in_corner = np.all(flat * directions > center[:, None], axis=0)
    along = (directions * center[:, None]).sum(axis=0)
    square = (directions**2).sum(axis=0)
    inside = np.maximum(along**2 - square * ((center**2).sum() - corner**2), 0.0)
    return np.asarray(np.where(in_corner, (along + np.sqrt(inside)) / square, flat))
