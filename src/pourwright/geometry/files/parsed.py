"""What a reader finds in a file, before units and welding."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pourwright.geometry.mesh import Integers

MOST_TRIANGLES = 20_000_000
"""More than any scan that is worth casting has; four times what fits into 4 GB of memory."""


@dataclass(frozen=True, slots=True, eq=False)
class Parsed:
    """Triangles as a file holds them.

    Parameters
    ----------
    vertices : array (n, 3)
        In the file's unit, in single or double precision as the file has them.
    faces : array (m, 3)
        Three vertex numbers per triangle, not yet checked; None where every three vertices make one.
    unit : str
        What one of the numbers means, as the file says it; empty where it does not.
    told : tuple of str
        What was left out or taken for granted.
    """

    vertices: npt.NDArray[np.floating]
    faces: Integers | None
    unit: str = ""
    told: tuple[str, ...] = ()

    @property
    def count(self) -> int:
        """How many triangles."""
        return len(self.vertices) // 3 if self.faces is None else len(self.faces)


def refuse_many(triangles: int) -> None:
    """Refuse more triangles than anybody needs, before room is made for them.

    Parameters
    ----------
    triangles : int
        How many are announced.

    Raises
    ------
    ValueError
        With both numbers.
    """
    if triangles > MOST_TRIANGLES:
        raise ValueError(f"it announces {triangles} triangles, more than {MOST_TRIANGLES}")
