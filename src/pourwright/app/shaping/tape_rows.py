"""Readings of a tape by height, and the sections they stand for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields, replace

import numpy as np

from pourwright.geometry.mesh import Floats
from pourwright.geometry.taped.cross_sections import CrossSection
from pourwright.geometry.taped.girths import ellipse_depth
from pourwright.geometry.taped.measured import MeasuredBody

FLAT = "flat"
LENGTHS = ("girth", "diameter", "width", "depth", "corner")
STEP = 1e-5


@dataclass(frozen=True, slots=True)
class TapeRow:
    """What was read at one height, or how the body closes there.

    Parameters
    ----------
    height : float
        [m]
    girth, diameter, width, depth, corner : float, optional
        What was read [m].
    closes : str, optional
        "flat", "point" or "dome" at an end without a section.
    """

    height: float
    girth: float | None = None
    diameter: float | None = None
    width: float | None = None
    depth: float | None = None
    corner: float | None = None
    closes: str | None = None

    @property
    def read(self) -> tuple[str, ...]:
        """Names of the lengths that were read."""
        return tuple(field.name for field in fields(self) if field.name in LENGTHS and self.given(field.name))

    def given(self, name: str) -> bool:
        """Whether a length was read."""
        return getattr(self, name) is not None

    @property
    def section(self) -> CrossSection | None:
        """The section these lengths stand for; None where no ellipse has both girth and width."""
        if self.closes is not None:
            return CrossSection(0.0, 0.0)
        if self.girth is not None and self.width is not None:
            depth = ellipse_depth(self.girth, self.width)
            return None if depth is None else CrossSection(self.width, depth)
        if self.width is not None and self.depth is not None:
            return CrossSection(self.width, self.depth, self.corner)
        across = self.girth / np.pi if self.girth is not None else self.diameter or 0.0
        return CrossSection(across, across)

    def sensitivity(self) -> float:
        """How far the area goes when every length is read wrong by itself, in quadrature [m2/m]."""
        square = 0.0
        for name in self.read:
            longer, shorter = (
                replace(self, **{name: max(getattr(self, name) + step, 0.0)}) for step in (STEP, -STEP)
            )
            more, less = longer.section, shorter.section
            if more is not None and less is not None:
                square += ((more.area - less.area) / (2 * STEP)) ** 2
        return float(np.sqrt(square))


MOST_FLARE = 0.25
"""A straight end goes in or out by no more than this share of the reading beside it."""


def body_of(rows: Sequence[TapeRow]) -> MeasuredBody:
    """Lay the smooth body through readings.

    Parameters
    ----------
    rows : sequence of TapeRow
        From the bottom up, each with a section or closing an end.

    Returns
    -------
    MeasuredBody
        An end that is flat without a reading goes on as the two readings beside it do.
    """
    heights = np.array([row.height for row in rows])
    sections = list(_sections(rows))
    for end, near, far in ((0, 1, 2), (-1, -2, -3)):
        if rows[end].closes == FLAT:
            further = far if len(rows) > 3 or (len(rows) == 3 and not rows[far].closes) else near
            sections[end] = _straight_on(heights, sections, (end, near, further))
    ends = [None if row.closes == FLAT else row.closes for row in (rows[0], rows[-1])]
    return MeasuredBody(heights, tuple(sections), (ends[0], ends[1]))


def _straight_on(
    heights: Floats, sections: Sequence[CrossSection], places: tuple[int, int, int]
) -> CrossSection:
    """The section at an end from the two beside it."""
    end, near, further = places
    ahead, back = heights[end] - heights[near], heights[near] - heights[further]
    last, before = sections[near], sections[further]

    def onward(size: float, smaller: float) -> float:
        flare = (size - smaller) / back * ahead if back else 0.0
        return float(size + np.clip(flare, -MOST_FLARE * size, MOST_FLARE * size))

    width, depth = onward(last.width, before.width), onward(last.depth, before.depth)
    corner = None if last.corner is None else min(last.corner, width / 2, depth / 2)
    return CrossSection(width, depth, corner)


def _sections(rows: Sequence[TapeRow]) -> Iterator[CrossSection]:
    for row in rows:
        section = row.section
        assert section is not None
        yield section
