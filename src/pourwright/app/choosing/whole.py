"""The text of a job file as a whole, and the marks by which a change of it is seen."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from pourwright.app.choosing.disk import read_disk
from pourwright.app.choosing.reading import faults


def text_of_file(folder: Path) -> dict[str, Any]:
    """Tell the text of a job file.

    Parameters
    ----------
    folder : Path
        Of the job.

    Returns
    -------
    dict
        ``text``, ``sha256`` and ``faults``, each with its line.

    Raises
    ------
    UserError
        Where there is none.
    """
    disk = read_disk(folder)
    return {"text": disk.text, "sha256": disk.sha256, "faults": [each.told() for each in faults(disk.text)]}


def mark_of_file(folder: Path) -> dict[str, str]:
    """Tell by what a change of the file is seen, and no more.

    Parameters
    ----------
    folder : Path
        Of the job.

    Returns
    -------
    dict
        ``sha256``.

    Raises
    ------
    UserError
        Where there is no file.
    """
    return {"sha256": read_disk(folder).sha256}
