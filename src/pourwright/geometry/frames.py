"""Which way up a piece is poured, and every height in both readings."""

from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from pourwright.foundation.errors import UserError
from pourwright.geometry.mesh import Floats, Mesh

#: Direction of the file that points up as poured -> rows of the turn that brings it to +z.
UP = MappingProxyType(
    {
        "+z": ((1, 0, 0), (0, 1, 0), (0, 0, 1)),
        "-z": ((1, 0, 0), (0, -1, 0), (0, 0, -1)),
        "+x": ((0, 0, -1), (0, 1, 0), (1, 0, 0)),
        "-x": ((0, 0, 1), (0, 1, 0), (-1, 0, 0)),
        "+y": ((1, 0, 0), (0, 0, -1), (0, 1, 0)),
        "-y": ((1, 0, 0), (0, 0, 1), (0, -1, 0)),
    }
)


@dataclass(frozen=True, slots=True, eq=False)
class PourFrame:
    """The map from the file to the frame of the pour: z up, z = 0 at the lowest point, x and y centred.

    Parameters
    ----------
    matrix : array (4, 4)
        Acts on file coordinates (x, y, z, 1) [m].
    height : float
        Height of the piece as poured [m].
    flipped : bool
        Whether the piece is poured upside down: the file's +z is taken as up when the piece stands.
    up : str
        Direction of the file that points up as poured.
    """

    matrix: Floats
    height: float
    flipped: bool
    up: str

    def as_poured(self, standing: float) -> float:
        """Height from the mold's floor as poured.

        Parameters
        ----------
        standing : float
            Height from the floor as the piece stands [m].

        Returns
        -------
        float
            [m]

        Examples
        --------
        >>> from pourwright.geometry import box
        >>> pour_frame(box([0.2, 0.2, 0.5]), "-z")[1].as_poured(0.1)
        0.4
        """
        return self.height - standing if self.flipped else standing

    def as_standing(self, poured: float) -> float:
        """Height from the floor as the piece stands; a piece poured on its side keeps the reading as poured.

        Parameters
        ----------
        poured : float
            Height from the mold's floor as poured [m].

        Returns
        -------
        float
            [m]

        Examples
        --------
        >>> from pourwright.geometry import box
        >>> pour_frame(box([0.2, 0.2, 0.5]), "+z")[1].as_standing(0.1)
        0.1
        """
        return self.height - poured if self.flipped else poured


def pour_frame(mesh: Mesh, up: str = "+z") -> tuple[Mesh, PourFrame]:
    """Turn a piece the way it is poured and set it on the mold's floor.

    Parameters
    ----------
    mesh : Mesh
        In the file's frame [m].
    up : str
        Direction of the file that points up as poured: +z, -z, +x, -x, +y or -y.

    Returns
    -------
    tuple of Mesh and PourFrame
        The piece in the pour frame, and how it came there.

    Raises
    ------
    UserError
        When the direction is none of the six.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> piece, frame = pour_frame(box([0.2, 0.3, 0.5]), "+x")
    >>> frame.height, frame.flipped, piece.bounds[1].round(3).tolist()
    (0.2, False, [0.25, 0.15, 0.2])
    """
    if up not in UP:
        raise UserError(f"'{up}' is no direction for up", allowed=", ".join(UP))
    matrix = np.eye(4)
    matrix[:3, :3] = UP[up]
    lower, upper = mesh.transformed(matrix).bounds
    matrix[:2, 3] = -(lower + upper)[:2] / 2
    matrix[2, 3] = -lower[2]
    piece = mesh.transformed(matrix)
    return piece, PourFrame(matrix, float(piece.bounds[1, 2]), up == "-z", up)
