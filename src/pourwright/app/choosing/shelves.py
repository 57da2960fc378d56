"""The records that a field may name: their ids, and what they are called."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from pourwright.app.choosing.catalogue import IDS, Choice
from pourwright.materials import Materials, load_materials
from pourwright.materials.contact import load_contact


def shop_of(folder: Path) -> Path | None:
    """Find the shop that a job folder lies in.

    Parameters
    ----------
    folder : Path
        Of the job.

    Returns
    -------
    Path or None
        The nearest folder, from the job's own upward, that holds materials or a shop file.
    """
    here = folder.resolve()
    above = (here, *here.parents[:4])
    return next((f for f in above if (f / "materials").is_dir() or (f / "shop.toml").is_file()), None)


def materials_of(folder: Path) -> Materials:
    """Read the records that a job may name.

    Parameters
    ----------
    folder : Path
        Of the job.

    Returns
    -------
    Materials
        The package's families, and the shop's own.
    """
    return load_materials(shop_of(folder))


def named(choice: Choice, materials: Materials, raw: Mapping[str, Any]) -> list[dict[str, str]]:
    """List what a field allows.

    Parameters
    ----------
    choice : Choice
        The field.
    materials : Materials
        Records at hand.
    raw : Mapping
        The job as read.

    Returns
    -------
    list of dict
        ``id`` and ``name`` of each; empty where anything of its kind may be written.
    """
    if choice.key not in IDS:
        words = choice.help.get("words", {})
        return [{"id": each, "name": str(words.get(each, each))} for each in choice.kind.allowed]
    return [
        {"id": str(each), "name": name}
        for shelf in IDS[choice.key]
        for each, name in _shelf(shelf, materials, raw).items()
    ]


def grades_of(materials: Materials, raw: Mapping[str, Any]) -> dict[str, str]:
    """List the grades of a job's glass.

    Parameters
    ----------
    materials : Materials
        Records at hand.
    raw : Mapping
        The job as read.

    Returns
    -------
    dict
        Name by id; empty for a glass without a record.
    """
    fill = raw.get("fill")
    glass = fill.get("glass", "soda-lime-crushed") if isinstance(fill, Mapping) else "soda-lime-crushed"
    found = materials.glass.get(str(glass))
    return {grade.id: grade.name for grade in found.grades} if found else {}


def _shelf(shelf: str, materials: Materials, raw: Mapping[str, Any]) -> dict[str, str]:
    if shelf == "grade":
        return grades_of(materials, raw)
    if shelf in {"release", "sealer", "surface"}:
        records: Mapping[str, Any] = getattr(load_contact(), shelf)
    else:
        records = getattr(materials, shelf)
    return {each: record.name for each, record in records.items()}
