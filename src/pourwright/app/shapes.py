"""Say what a shape is."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import Any

from pourwright.app.document.parts import piece_part
from pourwright.app.piece import PieceRead
from pourwright.foundation.errors import UserError
from pourwright.foundation.files import sha256_of
from pourwright.geometry import find_faults, level_volume, measure, pour_frame, read_mesh, refuse_faults
from pourwright.jobs import plan
from pourwright.materials import load_materials

USUAL_RESIN = "epoxy-slow-deep"
INCHES = ("in", "ft")


@dataclass(frozen=True)
class ShapeReport:
    """What a shape is, and what is wrong with it.

    Parameters
    ----------
    piece : plan.Piece
        The same as in a plan.
    units : str
        "us" where the file is in inches or feet.
    faults : tuple of dict
        Kind and message of each fault that does no harm.
    """

    piece: plan.Piece
    units: str
    faults: tuple[dict[str, Any], ...]

    def to_json(self) -> dict[str, Any]:
        """The report as JSON."""
        return {"piece": self.piece.model_dump(mode="json"), "units": self.units, "faults": list(self.faults)}


def describe_shape(path: Path, unit: str | None = None) -> ShapeReport:
    """Read a mesh file and measure it.

    Parameters
    ----------
    path : Path
        STL, OBJ, PLY, 3MF or GLB.
    unit : str, optional
        Of the numbers in an STL, OBJ or PLY file.

    Returns
    -------
    ShapeReport
        Size, volume, area, weight in each material; faults that do no harm.

    Raises
    ------
    UserError
        Where the file cannot be read, or holds no body that could be cast, with the place.
    """
    if not path.is_file():
        raise UserError(f"no file '{path}'", where=str(path), todo="mend the name")
    mesh = read_mesh(path, unit)
    refuse_faults(mesh, path.name, unit or "mm")
    faults = tuple(
        {"kind": fault.kind, "message": fault.sentence(unit or "mm")} for fault in find_faults(mesh)
    )
    turned, frame = pour_frame(mesh)
    solid = measure(turned)
    inputs = MappingProxyType({path.name: sha256_of(path)})
    read = PieceRead(path.name, turned, frame, solid, level_volume(turned), inputs)
    materials = load_materials()
    density = materials.resin[USUAL_RESIN].density.value
    piece = piece_part(read, solid.volume * density, USUAL_RESIN, materials)
    return ShapeReport(piece, "us" if unit in INCHES else "metric", faults)
