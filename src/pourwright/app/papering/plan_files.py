"""All files of a plan's folder, by the names they have there."""

from __future__ import annotations

from dataclasses import dataclass
from fnmatch import fnmatchcase
from pathlib import Path

from pourwright.foundation.errors import NotThereError

KINDS = {
    ".pdf": "application/pdf",
    ".ics": "text/calendar; charset=utf-8",
    ".csv": "text/csv; charset=utf-8",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".json": "application/json",
    ".h5": "application/x-hdf5",
    ".stl": "model/stl",
    ".3mf": "model/3mf",
}
KILO = 1000
OTHER = "application/octet-stream"
WORDS = {
    "plan.pdf": "the whole plan on paper",
    "calendar.ics": "what is done when, for any calendar",
    "plan.json": "every number of the plan, for programs",
    "heat.h5": "temperature and cure of the whole piece through time, for programs",
    "mold/mold.pdf": "the mold on paper",
    "mold/mold.json": "every number of the mold, for programs",
    "mold/*.stl": "a body of the mold, in millimetres",
    "mold/*.3mf": "a body of the mold, in millimetres",
    "master.*": "the master as it must be cut, in millimetres",
    "tables/*.csv": "a list, for a spreadsheet",
    "*.svg": "a drawing, to be printed at any size",
    "*.png": "a picture",
}


@dataclass(frozen=True)
class PlanFile:
    """One file of a plan.

    Parameters
    ----------
    name : str
        As in the folder, with its sub-folder.
    size : int
        Bytes.
    kind : str
        Media type.
    words : str
        What it is.
    size_text : str
        The size as it is read.
    """

    name: str
    size: int
    kind: str
    words: str
    size_text: str


def files_of_plan(folder: Path) -> list[PlanFile]:
    """List a plan's folder.

    Parameters
    ----------
    folder : Path
        Of the plan; it need not exist.

    Returns
    -------
    list of PlanFile
        By name, those at the top first; links and hidden files are none of ours.
    """
    found = [path for path in folder.rglob("*") if path.is_file() and not _foreign(path, folder)]
    names = sorted(
        (path.relative_to(folder).as_posix() for path in found), key=lambda name: ("/" in name, name)
    )
    return [_listed(name, (folder / name).stat().st_size) for name in names]


def _listed(name: str, size: int) -> PlanFile:
    return PlanFile(name, size, kind_of(name), words_of(name), size_words(size))


def size_words(size: int) -> str:
    """How large a file is, to two digits or so.

    Parameters
    ----------
    size : int
        Bytes.

    Returns
    -------
    str

    Examples
    --------
    >>> size_words(340), size_words(28_123), size_words(4_560_000)
    ('340 bytes', '28 kB', '4.6 MB')
    """
    if size < KILO:
        return f"{size} bytes"
    return f"{size / KILO:.0f} kB" if size < KILO**2 else f"{size / KILO**2:.1f} MB"


def _foreign(path: Path, folder: Path) -> bool:
    parts = path.relative_to(folder).parts
    inside = [folder.joinpath(*parts[: i + 1]) for i in range(len(parts))]
    return any(part.startswith(".") for part in parts) or any(each.is_symlink() for each in inside)


def file_of_plan(folder: Path, name: str) -> tuple[PlanFile, bytes]:
    """Give a file by its name in the listing.

    Parameters
    ----------
    folder : Path
        Of the plan.
    name : str
        Looked up in the listing, never joined to a path.

    Returns
    -------
    PlanFile
        What it is.
    bytes
        What it holds.

    Raises
    ------
    UserError
        For a name that is not listed.
    """
    for known in files_of_plan(folder):
        if known.name == name:
            return known, (folder / known.name).read_bytes()
    raise NotThereError(
        "the plan has no such file", allowed="the names in files.json", todo="take one of those"
    )


def kind_of(name: str) -> str:
    """Media type of a file by the end of its name.

    Parameters
    ----------
    name : str
        Of the file.

    Returns
    -------
    str

    Examples
    --------
    >>> kind_of("tables/pours.csv"), kind_of("notes")
    ('text/csv; charset=utf-8', 'application/octet-stream')
    """
    return KINDS.get(Path(name).suffix.lower(), OTHER)


def words_of(name: str) -> str:
    """What a file is, in words; empty for one that the maker has put there.

    Parameters
    ----------
    name : str
        In the plan's folder.

    Returns
    -------
    str

    Examples
    --------
    >>> words_of("tables/pours.csv"), words_of("photo.jpg")
    ('a list, for a spreadsheet', '')
    """
    return next((words for pattern, words in WORDS.items() if fnmatchcase(name, pattern)), "")
