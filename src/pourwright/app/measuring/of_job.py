"""Loggers at the terminal: a file attached to a pour, what it says, its drawing and its table."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from pourwright.app.booking.places import job_folder
from pourwright.app.measuring.attaching import attach_logger, take_logger_back
from pourwright.app.measuring.logger_file import LoggerTold
from pourwright.app.measuring.measured import measured_of
from pourwright.app.measuring.shown import measured_csv, measured_svg
from pourwright.calibration.logger import file_bytes
from pourwright.foundation.errors import UserError
from pourwright.foundation.files import write_atomically


def log_logger(
    job: Path,
    logger: Path,
    probes: Sequence[str] = (),
    *,
    unit: str | None = None,
    dates: str | None = None,
    at: str | None = None,
    variant: str | None = None,
    casting: int | None = None,
    pour: int | None = None,
) -> dict[str, Any]:
    """Attach the file of a logger to a pour.

    Parameters
    ----------
    job : Path
        Its folder or file.
    logger : Path
        CSV or other text, one row per reading.
    probes : sequence of str
        Where sensors were, each as ``core=middle``.
    unit, dates, at : str, optional
        As `LoggerTold`.
    variant : str, optional
        Needed where the job has plans of several.
    casting, pour : int, optional
        Else what is under way.

    Returns
    -------
    dict
        As `pourwright.app.measuring.attaching.attach_logger`.

    Raises
    ------
    UserError
        As there.
    """
    told = LoggerTold(read_probes(probes), unit, dates, at)
    return attach_logger(
        job_folder(job), file_bytes(logger), str(logger), told, variant=variant, casting=casting, pour=pour
    )


def read_probes(probes: Sequence[str]) -> dict[str, str]:
    """Read where sensors were.

    Parameters
    ----------
    probes : sequence of str
        Each as ``core=middle``.

    Returns
    -------
    dict
        Place by the name of the sensor.

    Raises
    ------
    UserError
        For one that says no place, or one that stands there twice.

    Examples
    --------
    >>> read_probes(["core=middle", "T2 = 45 mm"])
    {'core': 'middle', 'T2': '45 mm'}
    """
    found: dict[str, str] = {}
    for text in probes:
        name, mark, place = (part.strip() for part in text.partition("="))
        if not (name and mark and place):
            raise UserError(
                f"'{text}' says no place",
                where="--probe",
                allowed="NAME=PLACE",
                todo="as --probe core=middle",
            )
        if name in found:
            raise UserError(f"'{name}' stands there twice", where="--probe", todo="say one place for each")
        found[name] = place
    return found


def measured_job(
    job: Path,
    *,
    variant: str | None = None,
    casting: int | None = None,
    take_back: int | None = None,
    out: Path | None = None,
) -> dict[str, Any]:
    """Say what the loggers of a piece saw against its plan.

    Parameters
    ----------
    job : Path
        Its folder or file.
    variant : str, optional
        Needed where the job has plans of several.
    casting : int, optional
        Which piece; else the last.
    take_back : int, optional
        A series that is taken back first.
    out : Path, optional
        Folder for the drawing and the table of each series.

    Returns
    -------
    dict
        As `pourwright.app.measuring.measured.measured_of`, with ``files``.

    Raises
    ------
    UserError
        Where there is no plan, no such series, or the folder cannot be written.
    """
    folder = job_folder(job)
    if take_back is not None:
        take_logger_back(folder, take_back)
    answer = measured_of(folder, variant, casting)
    files = [] if out is None else _write(folder, out, answer)
    return answer | {"files": [str(file) for file in files]}


def _write(folder: Path, out: Path, answer: dict[str, Any]) -> list[Path]:
    series = [one["id"] for pour in answer["pours"] for one in pour["series"] if not one["taken_back"]]
    made = {out / f"measured-{number}.svg": measured_svg(folder, number) for number in series}
    made |= {out / f"measured-{number}.csv": measured_csv(folder, number) for number in series}
    try:
        out.mkdir(parents=True, exist_ok=True)
        for file, text in made.items():
            write_atomically(file, text.encode())
    except OSError as error:
        what = f"cannot be written: {error.strerror or error}"
        raise UserError(what, where=str(out), todo="make room there, or choose another place") from error
    return sorted(made)
