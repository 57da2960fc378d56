"""Which way up a piece is poured, and every height in both readings."""

from collections.abc import Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from pourwright.foundation.errors import UserError
from pourwright.geometry.mesh import Floats, Mesh

Up: TypeAlias = str | Sequence[float]
"""One of the six directions by name, or three numbers of the file's frame."""
ALONG = 1 - 1e-11
"""Cosine from which on two directions are one: within 5 thousandths of a millimetre a metre."""

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
        Direction of the file that points up as poured; three numbers with commas for one that lies askew.
    ground : float
        Lowest height of the piece in the file, where it stands on the floor [m].
    """

    matrix: Floats
    height: float
    flipped: bool
    up: str
    ground: float = 0.0

    @property
    def upright(self) -> bool:
        """Whether a level as poured is a level as the piece stands: neither on its side nor askew."""
        return self.flipped or self.up == "+z"

    def standing_height(self, place: npt.ArrayLike) -> float:
        """Height of one place from the floor as the piece stands, also of a piece poured on its side.

        Parameters
        ----------
        place : array (3,)
            In the frame of the pour [m].

        Returns
        -------
        float
            [m]

        Examples
        --------
        >>> from pourwright.geometry import box
        >>> frame = pour_frame(box([0.2, 0.2, 0.5]), "+x")[1]
        >>> round(frame.standing_height([0.25, 0.0, 0.1]), 6)
        0.0
        """
        turn = self.matrix[:3, :3]
        return float((np.asarray(place, dtype=np.float64) - self.matrix[:3, 3]) @ turn[:, 2] - self.ground)

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


def direction(up: Up) -> Floats:
    """Give the unit vector of a direction of the file.

    Parameters
    ----------
    up : str or three numbers
        One of the six by name, or any vector that is not null.

    Returns
    -------
    array (3,)

    Raises
    ------
    UserError
        When it is none of the six, or no vector.

    Examples
    --------
    >>> direction("-y").tolist(), direction([0.0, 3.0, 4.0]).tolist()
    ([0.0, -1.0, 0.0], [0.0, 0.6, 0.8])
    """
    if isinstance(up, str):
        if up not in UP:
            raise UserError(f"'{up}' is no direction for up", allowed=", ".join(UP))
        return np.array(UP[up][2], dtype=np.float64)
    vector = np.asarray(up, dtype=np.float64)
    if vector.shape == (3,) and np.isfinite(vector).all() and vector.any():
        # the square of a very large number is none
        vector = vector / np.abs(vector).max()
    length = float(np.linalg.norm(vector)) if vector.shape == (3,) else np.nan
    if not (np.isfinite(length) and length > 0):
        allowed = f"{', '.join(UP)}, or three numbers that are not all 0"
        raise UserError(f"{list(up)} is no direction for up", allowed=allowed)
    return vector / length


def direction_name(vector: npt.ArrayLike) -> str:
    """Name a direction as a job file writes it.

    Parameters
    ----------
    vector : array (3,)
        Of any length.

    Returns
    -------
    str
        One of the six where it is one, else three numbers to a millionth.

    Examples
    --------
    >>> direction_name([0.0, 0.0, -2.0]), direction_name([0.0, 3.0, 4.0])
    ('-z', '0, 0.6, 0.8')
    """
    unit = direction([float(value) for value in np.asarray(vector, dtype=np.float64)])
    axis = int(np.abs(unit).argmax())
    if abs(unit[axis]) > ALONG:
        return ("+" if unit[axis] > 0 else "-") + "xyz"[axis]
    return ", ".join(f"{round(value, 6) + 0.0:g}" for value in unit)


def turn_to(vector: Floats) -> Floats:
    """Give the turn that brings a direction to +z, by the shortest way; the six have theirs by convention.

    Parameters
    ----------
    vector : array (3,)
        Unit vector.

    Returns
    -------
    array (3, 3)

    Examples
    --------
    >>> (turn_to(np.array([0.0, 0.6, 0.8])) @ [0.0, 0.6, 0.8]).round(9).tolist()
    [0.0, 0.0, 1.0]
    """
    name = direction_name(vector)
    if name in UP:
        return np.array(UP[name], dtype=np.float64)
    x, y, z = vector
    # below the horizon the shortest way is long and badly known: half a turn about x comes first
    if z < 0:
        return turn_to(np.array([x, -y, -z])) @ np.diag([1.0, -1.0, -1.0])
    share = 1.0 / (1.0 + z)
    return np.array(
        [[1 - x * x * share, -x * y * share, -x], [-x * y * share, 1 - y * y * share, -y], [x, y, z]]
    )


def pour_frame(mesh: Mesh, up: Up = "+z") -> tuple[Mesh, PourFrame]:
    """Turn a piece the way it is poured and set it on the mold's floor.

    Parameters
    ----------
    mesh : Mesh
        In the file's frame [m].
    up : str or three numbers
        Direction of the file that points up as poured: +z, -z, +x, -x, +y, -y, or a vector.

    Returns
    -------
    tuple of Mesh and PourFrame
        The piece in the pour frame, and how it came there.

    Raises
    ------
    UserError
        When the direction is none of the six and no vector.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> piece, frame = pour_frame(box([0.2, 0.3, 0.5]), "+x")
    >>> frame.height, frame.flipped, piece.bounds[1].round(3).tolist()
    (0.2, False, [0.25, 0.15, 0.2])
    """
    matrix, vector = np.eye(4), direction(up)
    matrix[:3, :3] = turn_to(vector)
    lower, upper = mesh.transformed(matrix).bounds
    matrix[:2, 3] = -(lower + upper)[:2] / 2
    matrix[2, 3] = -lower[2]
    piece = mesh.transformed(matrix)
    name, ground = direction_name(vector), float(mesh.bounds[0, 2])
    return piece, PourFrame(matrix, float(piece.bounds[1, 2]), name == "-z", name, ground)
