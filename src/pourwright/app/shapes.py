"""Say what a shape is."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import Any

from pourwright.app.document.parts import piece_part
from pourwright.app.piece import PieceRead
from pourwright.fill import mix_mineral
from pourwright.foundation.errors import UserError
from pourwright.foundation.files import sha256_of
from pourwright.geometry import find_faults, level_volume, measure, pour_frame, read_mesh, refuse_faults
from pourwright.jobs import plan
from pourwright.materials import Materials, load_materials

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
    mixes : tuple of dict
        Powder and water of each casting material mixed with water.
    """

    piece: plan.Piece
    units: str
    faults: tuple[dict[str, Any], ...]
    mixes: tuple[dict[str, Any], ...] = ()

    def to_json(self) -> dict[str, Any]:
        """The report as JSON."""
        lists = {"faults": list(self.faults), "mixes": list(self.mixes)}
        return {"piece": self.piece.model_dump(mode="json"), "units": self.units} | lists


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
    units = "us" if unit in INCHES else "metric"
    return ShapeReport(piece, units, faults, tuple(_mixes(solid.volume, materials)))


def _mixes(volume: float, materials: Materials) -> Iterator[dict[str, Any]]:
    for mineral in materials.mineral.values():
        mix = mix_mineral(volume, mineral)
        masses = {"mixed_kg": mix.mixed, "powder_kg": mix.powder, "water_kg": mix.water}
        yield {"material": mineral.id, "name": mineral.name} | masses
