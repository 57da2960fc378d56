"""The list of what to saw that is there for a job, and the pieces of wood that it is sawn from."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from pydantic import BaseModel, ValidationError

from pourwright.app.working.standing import sheet_of
from pourwright.app.working.works import Works
from pourwright.foundation.errors import ConflictError, NotThereError
from pourwright.foundation.files import canonical_json
from pourwright.jobs.cut_nested import NestedBar, NestedSheet
from pourwright.jobs.cut_part import CutPart
from pourwright.jobs.cut_sheet import CutSheet
from pourwright.sheets.wording import Wording

CUT = "cut"
_MARK = 16


@dataclass(frozen=True, slots=True)
class Wood:
    """A sheet, an offcut or a bar, with what comes from it.

    Parameters
    ----------
    name : str
        On the page: ``sheet-1``, ``bar-1``.
    of : NestedSheet or NestedBar
        As the list has it.
    marks : tuple of str
        Of its parts.
    print : str
        Another one as soon as anything lies on it otherwise.
    """

    name: str
    of: NestedSheet | NestedBar
    marks: tuple[str, ...]
    print: str


@dataclass(frozen=True)
class Listed:
    """A list of what to saw.

    Parameters
    ----------
    sheet : CutSheet
        The document.
    old : bool
        Whether the job has changed since.
    word : str
        Why it is old, in short.
    because : list of str
        What has changed, a sentence each.
    """

    sheet: CutSheet
    old: bool
    word: str
    because: list[str]

    @property
    def variant(self) -> str:
        """Of the job."""
        return self.sheet.job.variant

    @cached_property
    def words(self) -> Wording:
        """The maker's units."""
        return Wording(self.sheet.job)

    @cached_property
    def digest(self) -> str:
        """Another one as soon as a part, a sheet or a cut is another."""
        return _digest([self.sheet.list, self.sheet.plan])

    @cached_property
    def parts(self) -> dict[str, CutPart]:
        """Every part by its mark."""
        return {part.mark: part for part in self.sheet.list.parts}

    @cached_property
    def wood(self) -> tuple[Wood, ...]:
        """Sheets and offcuts, then bars, in the order of the list."""
        return tuple(self._wood())

    @cached_property
    def wood_of(self) -> dict[str, Wood]:
        """What each part comes from, by its mark."""
        return {mark: wood for wood in self.wood for mark in wood.marks}

    def _wood(self) -> Iterator[Wood]:
        plan = self.sheet.plan
        for number, sheet in enumerate(plan.sheets, start=1):
            yield Wood(f"sheet-{number}", sheet, tuple(part.mark for part in sheet.parts), _print(sheet))
        for number, bar in enumerate(plan.bars, start=1):
            yield Wood(f"bar-{number}", bar, tuple(part.mark for part in bar.parts), _print(bar))

    def nested(self, number: int) -> NestedSheet:
        """Give a sheet by its number, from 1 on."""
        sheets = self.sheet.plan.sheets
        if not 1 <= number <= len(sheets):
            raise NotThereError(
                f"no sheet {number} is in this list",
                allowed=f"1 to {len(sheets)}",
                todo="load the page again",
            )
        return sheets[number - 1]


def listed_of(works: Works, file: Path, variant: str | None = None) -> Listed | None:
    """Give the latest list of what to saw.

    Parameters
    ----------
    works : Works
        Knows where it is kept.
    file : Path
        The job file.
    variant : str, optional
        Else the first.

    Returns
    -------
    Listed or None
        None where none was made yet, or it is no longer kept.
    """
    found = sheet_of(works, file, CUT, variant)
    if found["document"] is None:
        return None
    try:
        sheet = CutSheet.model_validate(found["document"])
    except ValidationError:
        # an earlier program's
        return None
    return Listed(sheet, found["old"], found["word"], found["because"])


def the_list(works: Works, file: Path, variant: str | None, seen: str | None = None) -> Listed:
    """Give the list, or refuse.

    Parameters
    ----------
    works : Works
        Knows where it is kept.
    file : Path
        The job file.
    variant : str or None
        Else the first.
    seen : str, optional
        Digest of the list that somebody looks at.

    Returns
    -------
    Listed

    Raises
    ------
    NotThereError
        Where there is none.
    ConflictError
        Where it is another one than was looked at.
    """
    found = listed_of(works, file, variant)
    if found is None:
        raise NotThereError("there is no list of what to saw yet", todo="work out what to saw first")
    if seen is not None and seen != found.digest:
        raise ConflictError(
            "the list was made anew since this page was loaded", where="list", todo="load the page again"
        )
    return found


def _print(of: NestedSheet | NestedBar) -> str:
    return _digest([of])[:_MARK]


def _digest(told: Sequence[BaseModel]) -> str:
    plain = [one.model_dump(mode="json") for one in told]
    return hashlib.sha256(canonical_json(plain)).hexdigest()
