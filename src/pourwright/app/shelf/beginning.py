"""Begin a job on the shelf: from five answers, or as a copy of another."""

from __future__ import annotations

import re
import shutil
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import tomlkit

from pourwright.app.shelf.places import JOB_FILE, JobPlace, job_places
from pourwright.app.shelf.uploads import Upload, upload_of
from pourwright.app.starting import BOX, INCHES, MEASURED, WITHOUT_FILE, system_zone
from pourwright.foundation.errors import UserError
from pourwright.foundation.files import staged_folder, write_atomically
from pourwright.foundation.notation import UnitSystem, parse_quantity
from pourwright.foundation.quantities import Dimension
from pourwright.jobs import Answers, load_job, write_new_job
from pourwright.jobs.new_forms import NEW_FORMS, form_height
from pourwright.materials import load_materials

LONGEST_NAME = 40
FEWEST_READINGS = 2
_READ = ("height", "girth", "diameter", "width", "depth", "corner", "closes")


@dataclass(frozen=True, kw_only=True)
class FiveAnswers:
    """What the page asks before it shows the first numbers.

    Parameters
    ----------
    title : str
        What the piece is called.
    shape : str
        1: ``file``, ``measured``, or a form that is written down, as ``box`` or ``turned``.
    upload, unit, height_m : str, str and float, optional
        1 and 2, for a file: its token, the unit of its numbers, and how high it was found to be.
    size : sequence of str
        2, for a form: its lengths, as written.
    readings : sequence of mapping
        2, for what was measured: from the table up.
    material : str
        3: id of the casting material.
    glass : sequence of (grade, colour)
        4: from the mold's floor up; empty for none.
    shop_temperature : str
        5: as a thermometer in the shop says.
    """

    title: str
    shape: str
    material: str
    shop_temperature: str
    upload: str | None = None
    unit: str | None = None
    height_m: float | None = None
    size: Sequence[str] = ()
    readings: Sequence[Mapping[str, str]] = ()
    glass: Sequence[tuple[str, str]] = field(default=())


def begin_job(shop: Path, given: FiveAnswers) -> JobPlace:
    """Write a commented job file into a new folder of the shop, the shape beside it.

    Parameters
    ----------
    shop : Path
        The shop folder.
    given : FiveAnswers
        The answers.

    Returns
    -------
    JobPlace

    Raises
    ------
    UserError
        For an answer that cannot be used, with the question it belongs to; nothing is written then.
    """
    _refuse_unknown(given)
    upload = None if given.shape != "file" else _uploaded(given)
    title = given.title.strip() or "untitled piece"
    answers = Answers(
        title=title,
        material=given.material,
        shop_temperature=given.shop_temperature.strip(),
        glass=tuple(given.glass),
        units=_units(given),
        time_zone=system_zone(),
    )
    text = write_new_job(_with_shape(answers, given, upload, title))
    name = free_name(shop, title)
    with staged_folder(shop / name) as stage:
        if upload is not None:
            shutil.copyfile(upload.path, stage / f"{plain_name(title)}{upload.path.suffix}")
        (stage / JOB_FILE).write_text(text, "utf8")
    if upload is not None:
        shutil.rmtree(upload.path.parent, ignore_errors=True)
    return JobPlace(name, shop / name)


def _with_shape(answers: Answers, given: FiveAnswers, upload: Upload | None, title: str) -> Answers:
    if upload is not None:
        name = f"{plain_name(title)}{upload.path.suffix}"
        return replace(answers, shape_file=name, unit=given.unit or None, height=given.height_m)
    if given.shape == MEASURED:
        readings = tuple(_reading(number, each) for number, each in enumerate(given.readings, 1))
        if len(readings) < FEWEST_READINGS:
            raise UserError(
                "no readings", where="readings", allowed="two or more", todo="measure the thing first"
            )
        return replace(answers, readings=readings, height=_measured_height(readings))
    size = tuple(each.strip() for each in given.size)
    if given.shape == BOX:
        length, width, height = _three(size)
        parsed = parse_quantity(height, Dimension.LENGTH, where="size")
        return replace(answers, box=(length, width, height), height=parsed.si)
    return replace(answers, form=given.shape, sizes=size, height=form_height(given.shape, size))


def _three(size: tuple[str, ...]) -> tuple[str, str, str]:
    if len(size) != 3:
        raise UserError(
            "a box has three sizes", where="size", todo='write length, width and height, as "12 in"'
        )
    return size[0], size[1], size[2]


def _reading(number: int, written: Mapping[str, str]) -> dict[str, str]:
    unknown = set(written) - set(_READ)
    if unknown:
        raise UserError(
            f"no reading is called '{min(unknown)}'", where=f"readings[{number}]", allowed=", ".join(_READ)
        )
    return {name: written[name].strip() for name in _READ if written.get(name, "").strip()}


def _measured_height(readings: Sequence[Mapping[str, str]]) -> float:
    low, high = (
        parse_quantity(one.get("height", ""), Dimension.LENGTH, where=f"readings[{number}].height").si
        for number, one in ((1, readings[0]), (len(readings), readings[-1]))
    )
    return high - low


def _refuse_unknown(given: FiveAnswers) -> None:
    materials = load_materials()
    glass = next(iter(materials.glass.values()))
    grades = [grade.id for grade in glass.grades]
    castable = [*materials.resin, *materials.mineral]
    shapes = ["file", *WITHOUT_FILE]
    for where, value, allowed in (
        ("shape", given.shape, shapes),
        ("material", given.material, castable),
        *((f"glass[{number}]", grade, grades) for number, (grade, _) in enumerate(given.glass, 1)),
    ):
        if value not in allowed:
            raise UserError(
                f"'{value}' is not known", where=where, allowed=", ".join(allowed), todo="choose one"
            )
    parse_quantity(given.shop_temperature, Dimension.TEMPERATURE, where="shop_temperature")


def _uploaded(given: FiveAnswers) -> Upload:
    if not given.upload:
        raise UserError("no file was handed in", where="upload", todo="choose a shape file first")
    return upload_of(given.upload)


def _units(given: FiveAnswers) -> UnitSystem:
    lengths = [given.unit or "", *given.size, *(text for one in given.readings for text in one.values())]
    us = any(text.rstrip().endswith(INCHES) for text in lengths)
    return UnitSystem.US if us else UnitSystem.METRIC


def copy_job(shop: Path, place: JobPlace, title: str) -> JobPlace:
    """Copy a job with its shape, without its plans.

    Parameters
    ----------
    shop : Path
        The shop folder.
    place : JobPlace
        What is copied.
    title : str
        Of the copy.

    Returns
    -------
    JobPlace

    Raises
    ------
    UserError
        For a job whose file has an error.
    """
    job = load_job(place.file)
    document = tomlkit.parse(place.file.read_text("utf8"))
    document["title"] = title.strip() or f"{job.title}, copy"
    name = free_name(shop, str(document["title"]))
    files = [file for file in (job.shape_file, *(place.folder / one for one in job.shape.drawings)) if file]
    with staged_folder(shop / name) as stage:
        for file in files:
            # what lies elsewhere is not copied: its name would point out of the folder
            if file.is_file() and file.resolve().parent == place.folder.resolve():
                shutil.copyfile(file, stage / file.name)
        write_atomically(stage / JOB_FILE, tomlkit.dumps(document))
    return JobPlace(name, shop / name)


def plain_name(title: str) -> str:
    """Make a file name of a title: letters, digits and hyphens.

    Parameters
    ----------
    title : str
        As written.

    Returns
    -------
    str
        At most 40 letters.

    Examples
    --------
    >>> plain_name("Großer Tisch / Nr. 2"), plain_name("../..")
    ('groer-tisch-nr-2', 'piece')
    """
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:LONGEST_NAME].strip("-") or "piece"


def free_name(shop: Path, title: str) -> str:
    """Find a name for a job's folder that nothing has yet.

    Parameters
    ----------
    shop : Path
        The shop folder.
    title : str
        Of the piece.

    Returns
    -------
    str
    """
    name, taken = plain_name(title), {place.name.casefold() for place in job_places(shop)}
    number = 1
    candidate = name
    while candidate in taken or (shop / candidate).exists():
        number += 1
        candidate = f"{name}-{number}"
    return candidate


def choices_of_five() -> dict[str, Any]:
    """Say what the five questions can be answered with.

    Returns
    -------
    dict
        ``materials``, ``grades`` (a line about each, the usual first), ``forms`` (names of their sizes).
    """
    materials = load_materials()
    glass = next(iter(materials.glass.values()))
    castable = {name: one.name for room in (materials.resin, materials.mineral) for name, one in room.items()}
    forms = {name: list(form.sizes) for name, form in NEW_FORMS.items()}
    return {
        "materials": [
            {"id": name, "words": words, "resin": name in materials.resin} for name, words in castable.items()
        ],
        "grades": [{"id": grade.id, "words": grade.name} for grade in glass.grades],
        "forms": {BOX: ["length", "width", "height"], **forms},
    }
