"""Start a job from five answers."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from pourwright.app.shaping.faulty import FaultyShape
from pourwright.app.shaping.files import from_file, handling_of
from pourwright.foundation.errors import UserError
from pourwright.foundation.files import staged_folder
from pourwright.foundation.notation import UnitSystem, parse_quantity
from pourwright.foundation.quantities import Dimension
from pourwright.jobs import Answers, write_new_job
from pourwright.jobs.new_forms import NEW_FORMS, form_height
from pourwright.materials import load_materials

BOX, MEASURED = "box", "measured"
WITHOUT_FILE = (BOX, MEASURED, *NEW_FORMS)
INCHES = ("in", "ft", '"', "'")


@dataclass(frozen=True)
class JobChoices:
    """What the five questions can be answered with.

    Parameters
    ----------
    materials, grades : mapping
        A line about each, by id; the first is the default.
    """

    materials: Mapping[str, str]
    grades: Mapping[str, str]


def job_choices() -> JobChoices:
    """List casting materials and grades of glass.

    Returns
    -------
    JobChoices
        From the package's families.
    """
    materials = load_materials()
    glass = next(iter(materials.glass.values()))
    return JobChoices(
        {resin.id: resin.name for resin in materials.resin.values()},
        {grade.id: grade.name for grade in glass.grades},
    )


def new_job(shape: str, unit: str | None, answers: Mapping[str, Any], target: Path) -> Path:
    """Write a commented job file into a new folder, with the shape copied beside it.

    Parameters
    ----------
    shape : str
        Path of a mesh file, "box", "measured", or a key of `NEW_FORMS`.
    unit : str or None
        Of the numbers in the file.
    answers : mapping
        ``material``, ``glass`` (pairs of grade and colour), ``shop_temperature``, and ``size``: the
        lengths of a written shape, or the height of what is measured;
        ``body`` and ``remesh`` of a faulty file.
    target : Path
        Folder to make.

    Returns
    -------
    Path
        The job file.

    Raises
    ------
    UserError
        For answers that cannot be used, and a folder that is there already.
    """
    if target.exists():
        raise UserError(f"'{target}' is there already", where=str(target), todo="choose another name")
    text = write_new_job(_answers(shape, unit, answers, target))
    with staged_folder(target) as stage:
        if shape not in WITHOUT_FILE:
            shutil.copyfile(shape, stage / Path(shape).name)
        (stage / "job.toml").write_text(text, "utf8")
    return target / "job.toml"


def _answers(shape: str, unit: str | None, answers: Mapping[str, Any], target: Path) -> Answers:
    warmth = str(answers["shop_temperature"])
    parse_quantity(warmth, Dimension.TEMPERATURE, where="--shop-temperature")
    size = tuple(answers.get("size", ()))
    us = any(mark in text for mark in INCHES for text in (unit or "", *size))
    return Answers(
        title=target.name.replace("-", " ").replace("_", " "),
        material=str(answers["material"]),
        shop_temperature=warmth,
        shape_file=None if shape in WITHOUT_FILE else Path(shape).name,
        form=shape if shape in NEW_FORMS else None,
        sizes=size,
        measured=shape == MEASURED,
        unit=unit,
        box=(size[0], size[1], size[2]) if shape == BOX and len(size) == 3 else None,
        glass=tuple((grade, colour) for grade, colour in answers["glass"]),
        height=_height(shape, unit, size, answers),
        body=answers.get("body"),
        remesh=answers.get("remesh"),
        units=UnitSystem.US if us else UnitSystem.METRIC,
        time_zone=system_zone(),
    )


def system_zone(root: Path = Path("/"), named: str | None = None) -> str | None:
    """Read the time zone this computer is set to.

    Parameters
    ----------
    root : Path
        Of the file system.
    named : str, optional
        Instead of the variable TZ.

    Returns
    -------
    str or None
        IANA name; None where it cannot be read.
    """
    for name in _zone_names(root, os.environ.get("TZ", "") if named is None else named):
        try:
            return ZoneInfo(name).key
        except (ValueError, OSError, KeyError):
            continue
    return None


def _zone_names(root: Path, named: str) -> Iterator[str]:
    if named:
        yield named.removeprefix(":")
    with suppress(OSError, UnicodeDecodeError):
        yield (root / "etc" / "timezone").read_text("ascii").strip()
    with suppress(OSError):
        yield str((root / "etc" / "localtime").readlink()).partition("zoneinfo/")[2]


def _height(shape: str, unit: str | None, size: tuple[str, ...], answers: Mapping[str, Any]) -> float:
    if shape == BOX:
        if len(size) != 3:
            raise UserError("a box has three sizes", where="--size", todo='write "12 in x 8 in x 10 in"')
        return parse_quantity(size[2], Dimension.LENGTH, where="--size").si
    if shape == MEASURED:
        if len(size) != 1:
            raise UserError(
                "a measured thing has one height", where="--size", todo='write "360 mm" or "14 in"'
            )
        height = parse_quantity(size[0], Dimension.LENGTH, where="--size").si
        if height <= 0:
            raise UserError(f"a height of {size[0]}", where="--size", allowed="above 0", todo="mend it")
        return height
    if shape in NEW_FORMS:
        return form_height(shape, size)
    if not Path(shape).is_file():
        allowed = f"a shape file, or {', '.join(WITHOUT_FILE)}"
        raise UserError(f"no file '{shape}'", where="--shape", allowed=allowed, todo="mend the name")
    handling = handling_of(answers.get("body"), answers.get("remesh"))
    try:
        mesh = from_file(Path(shape), unit, unit or "mm", handling).mesh
    except FaultyShape as error:
        stated = f" --unit {unit}" if unit else ""
        raise error.put(f"pourwright shape {shape}{stated} --out FOLDER draws where") from None
    return float(mesh.bounds[1, 2] - mesh.bounds[0, 2])
