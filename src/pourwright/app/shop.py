"""The shop that a job belongs to."""

from __future__ import annotations

from pathlib import Path

from pourwright.jobs.job import Job


def shop_folder(job: Job) -> Path | None:
    """Find the shop's folder: the nearest folder above the job that holds shop.toml or materials/."""
    here = job.path.resolve().parent
    found = (
        f for f in (here, *here.parents[:4]) if (f / "materials").is_dir() or (f / "shop.toml").is_file()
    )
    return next(found, None)
