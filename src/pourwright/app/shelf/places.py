"""Where the jobs of a shop lie."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from pourwright.foundation.errors import NotThereError

JOB_FILE = "job.toml"


@dataclass(frozen=True)
class JobPlace:
    """A job's folder.

    Parameters
    ----------
    name : str
        Of the folder, as the shelf lists it.
    folder : Path
        The folder.
    """

    name: str
    folder: Path

    @property
    def file(self) -> Path:
        """The job file."""
        return self.folder / JOB_FILE


def job_places(shop: Path) -> tuple[JobPlace, ...]:
    """List the jobs of a shop folder.

    Parameters
    ----------
    shop : Path
        The folder whose folders hold jobs.

    Returns
    -------
    tuple of JobPlace
        By name.
    """
    try:
        found = sorted(shop.iterdir(), key=lambda folder: (folder.name.casefold(), folder.name))
    except OSError:
        return ()
    return tuple(JobPlace(one.name, one) for one in found if _is_job(one))


def _is_job(folder: Path) -> bool:
    # a name that ends so would be taken for the twin of another page
    return (
        not folder.name.startswith(".")
        and not folder.name.endswith(".json")
        and (folder / JOB_FILE).is_file()
    )


def job_place(shop: Path, name: str) -> JobPlace:
    """Find a job by its name, among those that are listed and nowhere else.

    Parameters
    ----------
    shop : Path
        The shop folder.
    name : str
        As somebody wrote it.

    Returns
    -------
    JobPlace

    Raises
    ------
    NotThereError
        Where no job has that name.
    """
    for place in job_places(shop):
        if place.name == name:
            return place
    raise NotThereError(
        "no job has this name", where=str(shop), todo="look on the shelf: it may have been moved or renamed"
    )
