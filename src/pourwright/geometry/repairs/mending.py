"""What was mended in a mesh: one record for each kind of mending."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from pourwright.geometry.faults import near
from pourwright.geometry.mesh import Floats


@dataclass(frozen=True, slots=True, eq=False)
class Mending:
    """One kind of thing that was put right, or found and left as it is.

    Parameters
    ----------
    kind : str
        One of numbers, far, doubled, inner wall, fin, degenerate, welded, flipped, hole, inverted, nested,
        joined, chosen, remeshed, knife edge, thin.
    message : str
        What was done, without the place; ``{0}``, ``{1}`` stand for lengths, ``{u}`` for the unit.
    places : array (n, 3)
        Where, the first to be told first [m]; may be empty.
    lengths : tuple of float
        Lengths in the message [m].
    volume : float, optional
        The most that the volume may have changed by [m3]; None where it cannot be said.
    after : str
        What is said behind the place.
    """

    kind: str
    message: str
    places: Floats = field(default_factory=lambda: np.empty((0, 3)))
    lengths: tuple[float, ...] = ()
    volume: float | None = 0.0
    after: str = ""

    def sentence(self, unit: str = "mm", whole: float | None = None) -> str:
        """Say it with its first place in the maker's unit.

        Parameters
        ----------
        unit : str
            A unit of length of the job file.
        whole : float, optional
            Volume of the body, to give the change as a share of [m3].

        Returns
        -------
        str

        Examples
        --------
        >>> where = np.array([[0.01, 0.0, 0.02], [0.0, 0.0, 0.0]])
        >>> Mending("doubled", "2 triangles lay on others and were left out", where).sentence()
        '2 triangles lay on others and were left out, first near x = 10, y = 0, z = 20 mm'
        """
        said = near(self.message, self.places[0] if len(self.places) else None, unit, self.lengths)
        if len(self.places) > 1:
            said = said.replace(" near x =", ", first near x =", 1)
        change = f"; {_share(self.volume / whole)}" if self.volume and whole else ""
        return said + change + (f"; {self.after}" if self.after else "")


def counted(count: int, one: str, many: str) -> str:
    """Say a number of things.

    Parameters
    ----------
    count : int
        How many.
    one, many : str
        The words behind 1 and behind any other number.

    Returns
    -------
    str
    """
    return f"1 {one}" if count == 1 else f"{count} {many}"


def _share(share: float) -> str:
    if share < 1e-5:
        return "the volume changed by less than 0.001 %"
    return f"the volume changed by {100 * share:.2g} % at most"
