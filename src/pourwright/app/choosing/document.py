"""Everything that a job's file says, field by field, as the page shows it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pourwright.app.choosing.catalogue import SECTIONS, Choice, choices, section_of
from pourwright.app.choosing.disk import OnDisk, one_at_a_time, read_disk
from pourwright.app.choosing.history import History, read_history
from pourwright.app.choosing.kinds import Kind
from pourwright.app.choosing.reading import faults, job_of, usable, variant_number
from pourwright.app.choosing.shelves import grades_of, materials_of, named
from pourwright.app.choosing.values import read_list, text_of
from pourwright.app.choosing.words import what_changed
from pourwright.foundation.errors import UserError
from pourwright.jobs import Job
from pourwright.jobs.edits import at
from pourwright.jobs.keypaths import KeyPath, shown
from pourwright.jobs.shape_forms import FORMS
from pourwright.materials import Materials

_LENGTH = Kind("length")
_OF_A_WAY = {f"shape.{name}": ("file",) for name in ("file", "unit", "repair", "body", "remesh")} | {
    "shape.box": ("box",),
    "shape.round": (*FORMS, "part"),
    "shape.round_inner": (*FORMS, "part"),
}
FOUND, BY_HAND = "as the file was found", "changed by hand: "


@dataclass(frozen=True)
class Shown:
    """A job as it is shown: one of its variants.

    Parameters
    ----------
    whole : Job
        The whole file.
    number : int or None
        Of the variant.
    materials : Materials
        Records at hand.
    """

    whole: Job
    number: int | None
    materials: Materials

    @property
    def job(self) -> Job:
        """The variant."""
        return self.whole.variants()[self.number or 0]

    def own(self, path: KeyPath) -> bool:
        """Whether a line stands in the variant itself."""
        return self.number is not None and at(self.whole.raw, ("variant", self.number, *path)) is not None


def meet(folder: Path, disk: OnDisk) -> History:
    """Take a hand edit into the history, as a step of its own.

    Parameters
    ----------
    folder : Path
        Of the job.
    disk : OnDisk
        As it is now.

    Returns
    -------
    History
        Its present state is what is on disk; a folder that cannot be written keeps none.
    """
    history = read_history(folder)
    before = history.now
    with suppress(OSError):
        history.meet(disk.text, FOUND if before is None else BY_HAND + what_changed(before.text, disk.text))
    return history


def choices_of(folder: Path, variant: str | None = None) -> dict[str, Any]:
    """Tell every choice of a job.

    Parameters
    ----------
    folder : Path
        Of the job.
    variant : str, optional
        Its name; the first where it is not given.

    Returns
    -------
    dict
        Sections with their fields, bands, what undo and redo would do. A file that cannot be read is told
        under ``broken``, with the last text that could; the fields are then of that one.

    Raises
    ------
    UserError
        Where there is no file, or no such variant.
    """
    with one_at_a_time(folder):
        disk = read_disk(folder)
        history = meet(folder, disk)
    wrong = faults(disk.text)
    good = disk.text if not wrong else _last_good(history)
    document: dict[str, Any] = {
        "sha256": disk.sha256,
        "undo": history.undone.what if history.undone else None,
        "redo": history.next.what if history.next else None,
        "broken": None,
    }
    if wrong:
        document["broken"] = {"faults": [each.told() for each in wrong], "last_good": good}
    return document | (_nothing() if good is None else _told(folder, job_of(good), variant))


def _last_good(history: History) -> str | None:
    state = history.last_that(usable)
    return None if state is None else state.text


def _nothing() -> dict[str, Any]:
    sections = [{"id": name, "title": title, "fields": [], "written": []} for name, title in SECTIONS.items()]
    return {
        "title": "", "units": "metric", "variant": "main", "variants": ["main"], "sections": sections,
        "bands": [], "bands_in_variant": False, "grades": {}, "shape": "",
    }  # fmt: skip


def _told(folder: Path, whole: Job, variant: str | None) -> dict[str, Any]:
    number = variant_number(whole, variant)
    seen = Shown(whole, number, _materials(folder))
    job = seen.job
    fields = [_field(seen, choice) for choice in choices().values() if _is_shown(job, choice)]
    written = list(_written(job))
    return {
        "title": job.title,
        "units": job.units,
        "variant": job.variant_name,
        "variants": [each.variant_name for each in whole.variants()],
        "sections": [
            {
                "id": name,
                "title": title,
                "fields": [field for field in fields if field["section"] == name],
                "written": [each for each in written if each["section"] == name],
            }
            for name, title in SECTIONS.items()
        ],
        "bands": list(_bands(job)),
        "bands_in_variant": seen.own(("band",)),
        "grades": grades_of(seen.materials, job.raw),
        "shape": job.shape.given,
    }


def _materials(folder: Path) -> Materials:
    try:
        return materials_of(folder)
    except UserError:
        # a faulty record of the shop is told where it is used
        return materials_of(Path("/"))


def _is_shown(job: Job, choice: Choice) -> bool:
    if choice.needs:
        return isinstance(at(job.raw, choice.path[:-1]), Mapping)
    return job.shape.given in _OF_A_WAY.get(choice.key, (job.shape.given,))


def _field(seen: Shown, choice: Choice) -> dict[str, Any]:
    value = at(seen.job.raw, choice.path)
    text = text_of(value)
    read = read_list(text, choice.kind) if text else None
    return {
        "key": choice.key,
        "section": choice.section,
        "label": choice.label,
        "kind": choice.kind.name,
        "many": choice.kind.many,
        "text": text,
        "other": read.other if read else "",
        "si": read.si if read else None,
        "default": choice.default,
        "why": str(choice.extra.get("why", "")),
        "allowed": named(choice, seen.materials, seen.job.raw),
        "required": choice.required,
        "main": choice.main,
        "line": seen.job.line(choice.path) if value is not None else None,
        "in_variant": seen.own(choice.path),
    }


def _written(job: Job) -> Iterator[dict[str, Any]]:
    """Tables without fields, which are changed in the text of the file."""
    for path, line in job.lines.items():
        # one entry for each table or list, at its first line
        if path[0] in {"format", "variant", "band"} or any(isinstance(step, int) for step in path):
            continue
        value = at(job.raw, path)
        if value is not None and not _has_fields(path) and _outermost(job, path):
            yield {
                "key": shown(path), "section": section_of(path), "line": line,
                "count": len(value) if isinstance(value, list) else 1,
            }  # fmt: skip


def _has_fields(path: KeyPath) -> bool:
    return any(choice.path[: len(path)] == path for choice in choices().values())


def _outermost(job: Job, path: KeyPath) -> bool:
    return all(path[:n] not in job.lines or _has_fields(path[:n]) for n in range(1, len(path)))


def _bands(job: Job) -> Iterator[dict[str, Any]]:
    for number, (band, raw) in enumerate(zip(job.band, job.raw.get("band", []), strict=False)):
        yield {
            "raw": raw,
            "line": job.line(("band", number)),
            "to": text_of(raw.get("to")),
            "to_m": None if band.to is None else band.to.si,
            "other": "" if band.to is None else read_list(band.to.text, _LENGTH).other,
        }
