"""A master made from boards: stacked where the saw makes the shape, else sliced and sanded."""

from __future__ import annotations

from pourwright.foundation.errors import UserError
from pourwright.geometry import Mesh, measure
from pourwright.materials.records import Board
from pourwright.mold.wood.master import MasterWood
from pourwright.mold.wood.master_coats import Held, sealing
from pourwright.mold.wood.master_cuts import joints, layers
from pourwright.mold.wood.master_panels import stacked
from pourwright.mold.wood.master_slices import sliced


def master_from_boards(
    mesh: Mesh, board: Board, *, oversize: float = 0.0, held: Held = "top", sealer: str | None = None
) -> MasterWood:
    """Say from which boards a master is glued up.

    Parameters
    ----------
    mesh : Mesh
        The master, one closed body in the frame of the pour [m].
    board : Board
        What it is sawn from, at its thickness.
    oversize : float
        Left on every edge when it is sawn [m]: around the rectangle of a stacked part, trimmed off later;
        all along the outline of a slice, sanded off, and part of its outline and its step.
    held : str
        The level face it is screwed on or hung by: "top", "bottom" or "none".
    sealer : str, optional
        Id of its sealer; else what the board needs.

    Returns
    -------
    MasterWood

    Raises
    ------
    UserError
        Where the oversize is below zero or the mesh is no closed body.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> from pourwright.materials.loading import load_materials
    >>> wood = master_from_boards(box([0.3, 0.2, 0.054]), load_materials().board["mdf"])
    >>> wood.kind, [part.mark for part in wood.parts], round(wood.mass, 3)
    ('stacked', ['master 1', 'master 2', 'master 3'], 2.43)
    """
    if not oversize >= 0:
        raise UserError(f"an oversize of {oversize:g} m cannot be sawn", allowed="zero or more")
    thickness = board.thickness.value
    found = stacked(mesh, thickness)
    axis, cuts = found or ("z", sliced(mesh, thickness, oversize))
    made = tuple(layers(cuts, axis, board, oversize if found else 0.0))
    return MasterWood(
        kind="stacked" if found else "sliced",
        axis=axis,
        board=board,
        layers=made,
        joints=tuple(joints(cuts, made)),
        solid=float(measure(mesh).volume),
        sealing=sealing(mesh, axis, board.id, held=held, sealer=sealer),
    )
