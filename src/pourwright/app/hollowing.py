"""The core of a job's piece, and the room around it, or why there can be none."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.app.glass import glass_of, grade_of
from pourwright.app.shaping.piece import PieceRead
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_length, format_share
from pourwright.geometry import LevelVolume, Mesh, Solid, hollows, level_volume, measure
from pourwright.jobs.job import Job
from pourwright.materials import Board, Core, Materials
from pourwright.mold.hollow.body import HollowBody, deepest, hollow_body
from pourwright.mold.hollow.core import has_mouth
from pourwright.mold.hollow.defaults import HOLLOW
from pourwright.mold.hollow.offers import LEAST_CORE
from pourwright.mold.hollow.out import comes_out


@dataclass(frozen=True)
class Hollowed:
    """A piece with its core.

    Parameters
    ----------
    body : HollowBody
        Core and room.
    material : Core or Board
        What the core is made of.
    stays : bool
        Whether it stays in the piece.
    solid : Solid
        Of the room that is filled.
    levels : LevelVolume
        V(z) of the room.
    """

    body: HollowBody
    material: Core | Board
    stays: bool
    solid: Solid
    levels: LevelVolume

    @property
    def core_mass(self) -> float:
        """Of the core [kg]."""
        return self.body.volume * self.material.density.value

    @property
    def kept_mass(self) -> float:
        """What the core adds to the piece [kg]."""
        return self.core_mass if self.stays else 0.0

    @property
    def peak_limit(self) -> float | None:
        """Hottest that the core may get [K]; None for a board."""
        return self.material.peak_limit.value if isinstance(self.material, Core) else None


def hollowed(job: Job, piece: PieceRead, materials: Materials) -> Hollowed | None:
    """Lay the core of a job into its piece.

    Parameters
    ----------
    job : Job
        As written.
    piece : PieceRead
        Its piece.
    materials : Materials
        For the core.

    Returns
    -------
    Hollowed or None
        None where the job asks for no core.

    Raises
    ------
    UserError
        Where there can be none, with the line of the job file.
    """
    asked = job.hollow
    if asked is None:
        return None
    material = core_material(asked.core, materials, job.where("hollow.core"))
    cover = asked.top == "closed"
    _refuse_closed(job, piece)
    _refuse_narrow(job, materials, asked.wall.si)
    if not cover and not has_mouth(piece.mesh):
        raise UserError(
            "the piece has no flat open face at the top that a core can be hung through",
            where=job.where("hollow"),
            todo='cast it solid, or turn it with shape.up; top = "closed" drowns the core',
        )
    body = hollow_body(piece.mesh, asked.wall.si, cover=cover)
    if body is None or body.volume < LEAST_CORE * piece.solid.volume:
        raise _too_thick(job, piece.mesh, body, cover=cover)
    if not asked.stays:
        _refuse_stuck(job, body, material)
    room = body.room
    return Hollowed(body, material, asked.stays, measure(room), level_volume(room))


def core_material(name: str, materials: Materials, where: str = "") -> Core | Board:
    """Look up what a core is made of.

    Parameters
    ----------
    name : str
        Id of a core or of a board.
    materials : Materials
        Records.
    where : str
        File and line to print when it is unknown.

    Returns
    -------
    Core or Board

    Raises
    ------
    UserError
        Where there is no such record; it lists those that there are.
    """
    found: Core | Board | None = materials.core.get(name) or materials.board.get(name)
    if found is None:
        raise UserError(
            f"no material of a core called '{name}'",
            where=where,
            allowed=", ".join([*sorted(materials.core), *sorted(materials.board)]),
            todo="choose one of these, or add a record to the shop's materials/core.toml",
        )
    return found


def largest_grain(job: Job, materials: Materials) -> float:
    """Say how large the largest grain of a job's bands is.

    Parameters
    ----------
    job : Job
        As written.
    materials : Materials
        For its glass.

    Returns
    -------
    float
        [m]; 0 where there is no glass.
    """
    if job.fill.glass not in materials.glass or job.casting.material in materials.mineral:
        return 0.0
    used = {grade_of(band) for band in job.band}
    sieves = (grade.sieve_to.value for grade in glass_of(job, materials).grades if grade.id in used)
    return max(sieves, default=0.0)


def _refuse_closed(job: Job, piece: PieceRead) -> None:
    if any(not hollow.open_above for hollow in hollows(piece.mesh)):
        raise UserError(
            "the shape has a closed hollow already: no rubber can be in it, and no core is laid around it",
            where=job.where("shape"),
            todo="make the shape solid there; [hollow] lays the core",
        )


def _refuse_narrow(job: Job, materials: Materials, wall: float) -> None:
    """Grains must find their way between core and mold."""
    largest = largest_grain(job, materials)
    least = HOLLOW["grains_in_wall"].value * largest
    if wall < least - 1e-9:
        system = UnitSystem(job.units)
        raise UserError(
            f"a wall of {format_length(wall, system)} is too narrow for grains of up to "
            f"{format_length(largest, system)}: they jam in it",
            where=job.where("hollow.wall"),
            allowed=f"{format_length(least, system)} or more, {HOLLOW['grains_in_wall'].value:g} grains",
            todo="make the wall thicker, or choose a finer grade",
        )


def _too_thick(job: Job, mesh: Mesh, body: HollowBody | None, *, cover: bool) -> UserError:
    system = UnitSystem(job.units)
    most = format_length(deepest(mesh, cover=cover), system)
    left = "no room" if body is None else f"less than {format_share(LEAST_CORE)} of the piece"
    asked = "" if job.hollow is None else format_length(job.hollow.wall.si, system)
    return UserError(
        f"a wall of {asked} leaves {left} for a core",
        where=job.where("hollow.wall"),
        allowed=f"clearly less than {most}, which is how deep the deepest place lies",
        todo="make the wall thinner, or cast it solid",
    )


def _refuse_stuck(job: Job, body: HollowBody, material: Core | Board) -> None:
    if isinstance(material, Core) and material.coming_out:
        return
    if body.cover or not comes_out(body.core):
        raise UserError(
            f"a core of {material.name} that must come out is wider below than above, or has no way out",
            where=job.where("hollow.stays"),
            todo="let it stay, or take a foam, which is scraped out in pieces",
        )
