"""Say what a shape is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from types import MappingProxyType
from typing import Any

from pourwright.app.document.parts import piece_part
from pourwright.app.shaping.faulty import FaultyShape, pictured
from pourwright.app.shaping.files import Handling, from_file, handling_of
from pourwright.app.shaping.looked import Looked
from pourwright.app.shaping.looks import FILES, LOOKS
from pourwright.app.shaping.piece import shape_of, turned
from pourwright.app.shaping.shape_folder import SHAPE_FOLDER, marked
from pourwright.fill import mix_mineral
from pourwright.foundation.errors import UserError
from pourwright.foundation.files import sha256_of
from pourwright.foundation.notation import UnitSystem
from pourwright.foundation.progress import SILENT, Progress
from pourwright.geometry import find_faults
from pourwright.jobs import input_hashes, load_shape, plan
from pourwright.jobs.loading import USUAL_RESIN
from pourwright.materials import Materials, load_materials

INCHES = ("in", "ft")


@dataclass(frozen=True)
class ShapeReport:
    """What a shape is, and what is wrong with it.

    Parameters
    ----------
    piece : plan.Piece
        The same as in a plan.
    units : str
        "us" where the file is in inches or feet, or the job says so.
    told : tuple of str
        What was mended or taken for granted, and how it was drawn.
    faults : tuple of dict
        Kind and message of each fault that does no harm.
    mixes : tuple of dict
        Powder and water of each casting material mixed with water.
    looks : mapping
        Everything else, by its key.
    files : tuple of Path
        What was written.
    """

    piece: plan.Piece
    units: str
    told: tuple[str, ...]
    faults: tuple[dict[str, Any], ...]
    mixes: tuple[dict[str, Any], ...] = ()
    looks: Mapping[str, Any] = field(default_factory=dict)
    files: tuple[Path, ...] = ()

    def to_json(self) -> dict[str, Any]:
        """The report as JSON."""
        lists = {"told": list(self.told), "faults": list(self.faults), "mixes": list(self.mixes)}
        piece = {"piece": self.piece.model_dump(mode="json"), "units": self.units}
        return piece | lists | dict(self.looks) | {"files": [str(path) for path in self.files]}


def describe_shape(
    path: Path,
    unit: str | None = None,
    *,
    body: int | None = None,
    remesh: str | None = None,
    out: Path | None = None,
    progress: Progress = SILENT,
) -> ShapeReport:
    """Read a shape and say everything that needs no mold, glass or heat.

    Parameters
    ----------
    path : Path
        A mesh file, or a job file for the shape it holds.
    unit : str, optional
        Of the numbers in a mesh file that does not say it.
    body : int, optional
        Which of several bodies in a mesh file, from 1 for the largest.
    remesh : str, optional
        Length with its unit, within which the surface of a mesh file is made anew.
    out : Path, optional
        Folder for its pictures and files; replaced in one step. A shape that is refused leaves a picture of
        its faults there.
    progress : Progress
        Told what is done; may raise Cancelled.

    Returns
    -------
    ShapeReport
        Size, volume, area, weight in each material; faults that do no harm; every look.

    Raises
    ------
    UserError
        Where the file cannot be read, or holds no body that could be cast, with the place.
    """
    if out is not None:
        SHAPE_FOLDER.refuse_foreign(out)
    progress.step("reading the shape", 0, 1)
    try:
        looked = _look_at(path, unit, handling_of(body, remesh), progress)
    except FaultyShape as error:
        raise pictured(error, out) from None
    progress.step("reading the shape", 1, 1)
    shown_in = "in" if looked.system is UnitSystem.US else unit or "mm"
    faults = tuple(
        {"kind": fault.kind, "message": fault.sentence(shown_in)} for fault in find_faults(looked.shaped.mesh)
    )
    materials = load_materials()
    solid = looked.piece.solid
    density = materials.resin[USUAL_RESIN].density.value
    piece = piece_part(looked.piece, solid.volume * density, USUAL_RESIN, materials)
    looks = {name: look(looked, progress) for name, look in LOOKS.items()}
    told = looked.piece.told + looked.piece.noted
    mixes = tuple(_mixes(solid.volume, materials))
    report = ShapeReport(piece, looked.system.value, told, faults, mixes, looks)
    return report if out is None else replace(report, files=SHAPE_FOLDER.write(out, _files(looked, report)))


def _look_at(path: Path, unit: str | None, handling: Handling, progress: Progress) -> Looked:
    if path.is_dir() or path.suffix.lower() == ".toml":
        option = "--unit" if unit is not None else "--body or --remesh" if handling != Handling() else None
        if option:
            raise UserError(f"{option} belongs to a mesh file", where=str(path), todo="write it into the job")
        job = load_shape(path)
        shaped = shape_of(job, progress)
        if "title" in job.model_fields_set:
            shaped = replace(shaped, name=job.title)
        read = turned(shaped, job.shape.up, input_hashes(job))
        return Looked(shaped, read, UnitSystem(job.units), job)
    if not path.is_file():
        raise UserError(f"no file '{path}'", where=str(path), todo="mend the name")
    shaped = from_file(path, unit, unit or "mm", handling, progress)
    read = turned(shaped, "+z", {path.name: sha256_of(path)})
    return Looked(shaped, read, UnitSystem.US if unit in INCHES else UnitSystem.METRIC)


def _files(looked: Looked, report: ShapeReport) -> dict[str, bytes]:
    answer = {key: value for key, value in report.to_json().items() if key != "files"}
    made = [file for make in FILES for file in make(looked, MappingProxyType(dict(report.looks)))]
    return dict(made) | marked(answer)


def _mixes(volume: float, materials: Materials) -> Iterator[dict[str, Any]]:
    for mineral in materials.mineral.values():
        mix = mix_mineral(volume, mineral)
        masses = {"mixed_kg": mix.mixed, "powder_kg": mix.powder, "water_kg": mix.water}
        yield {"material": mineral.id, "name": mineral.name} | masses
