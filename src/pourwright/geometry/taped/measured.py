"""A smooth body through sections that were measured by height."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.taped.between import squares_between
from pourwright.geometry.taped.cross_sections import CrossSection
from pourwright.geometry.taped.lofting import loft

AROUND = 128
LEVELS, CLOSING_LEVELS, MOST_LEVELS = 16, 40, 320


@dataclass(frozen=True, slots=True, eq=False)
class MeasuredBody:
    """Sections by height, and how the body closes below the first and above the last.

    Parameters
    ----------
    heights : array (n,)
        Rising [m], the closing ends among them.
    sections : tuple of CrossSection
        One for each height; at a closing end of no size.
    ends : tuple
        How the bottom and the top close: "point", "dome", or None where they are flat.
    """

    heights: Floats
    sections: tuple[CrossSection, ...]
    ends: tuple[str | None, str | None] = (None, None)

    @property
    def areas(self) -> Floats:
        """Of the sections, (n,) [m2]."""
        return np.array([section.area for section in self.sections])

    def halves(self, levels: Floats) -> Floats:
        """Half of the width and of the depth at some levels.

        Parameters
        ----------
        levels : array (m,)
            [m]

        Returns
        -------
        array (m, 2)
            [m]

        Examples
        --------
        >>> round_ = [CrossSection(size, size) for size in (0.2, 0.0)]
        >>> bowl = MeasuredBody(np.array([0.0, 0.1]), tuple(round_), (None, "dome"))
        >>> bowl.halves(np.array([0.06]))[0].round(6).tolist()
        [0.08, 0.08]
        """
        sizes = np.array([[section.width, section.depth] for section in self.sections]) / 2
        return np.sqrt(np.maximum(squares_between(self.heights, sizes**2, self.ends)(levels), 0.0))

    def outlines(self, levels: Floats) -> Floats:
        """Outline of the body at some levels, each as large as the smooth section.

        Parameters
        ----------
        levels : array (m,)
            [m]

        Returns
        -------
        array (m, n, 2)
            Points, counter-clockwise [m].
        """
        angles = 2 * np.pi * np.arange(AROUND) / AROUND
        circle = np.stack([np.cos(angles), np.sin(angles)], axis=1)
        circle[np.abs(circle) < 1e-15] = 0.0
        # a polygon lacks a little of its curve: half-diameters grow by as much
        reach, lack = self._reach(angles), []
        for section, far in zip(self._open_sections(), reach, strict=True):
            points = circle * far[:, None] * np.array([section.width, section.depth]) / 2
            lack.append(np.sqrt(section.area / _area(points)))
        grown = reach * np.array(lack)[:, None]
        between = squares_between(self.heights, grown)(levels)
        return np.asarray(self.halves(levels)[:, None, :] * circle * between[:, :, None])

    def mesh(self) -> Mesh:
        """Make the closed mesh.

        Returns
        -------
        Mesh

        Examples
        --------
        >>> from pourwright.geometry import measure
        >>> round_ = tuple(CrossSection(size, size) for size in (0.2, 0.0))
        >>> half_ball = MeasuredBody(np.array([0.0, 0.1]), round_, (None, "dome")).mesh()
        >>> bool(abs(measure(half_ball).volume / (2 / 3 * np.pi * 0.1**3) - 1) < 1e-3)
        True
        """
        levels = self._levels()
        outlines = self.outlines(levels)
        for end, how in zip((0, -1), self.ends, strict=True):
            if how is not None:
                outlines[end] = 0.0
        return loft(levels, outlines)

    def _open_sections(self) -> tuple[CrossSection, ...]:
        """The sections, where at a closing end the one beside it stands in."""
        kept = list(self.sections)
        for end, inner, how in ((0, 1, self.ends[0]), (-1, -2, self.ends[1])):
            kept[end] = kept[inner] if how is not None else kept[end]
        return tuple(kept)

    def _reach(self, angles: Floats) -> Floats:
        return np.stack([section.reach(angles) for section in self._open_sections()])

    def _levels(self) -> Floats:
        count = max(min(LEVELS, MOST_LEVELS // (len(self.heights) - 1)), 4)
        even, fine = np.arange(count) / count, np.arange(CLOSING_LEVELS) / CLOSING_LEVELS
        # a dome is steep in height at its end: finer steps there
        graded = {0: 1 - np.cos(np.pi / 2 * fine), len(self.heights) - 2: np.sin(np.pi / 2 * fine)}
        closing = {0: self.ends[0], len(self.heights) - 2: self.ends[1]}
        parts = [
            low + (high - low) * (graded[i] if closing.get(i) else even)
            for i, (low, high) in enumerate(zip(self.heights[:-1], self.heights[1:], strict=True))
        ]
        return np.append(np.concatenate(parts), self.heights[-1])


def _area(points: Floats) -> float:
    x, y = points.T
    return float(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)) / 2)
