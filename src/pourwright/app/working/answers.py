"""Sheets kept between two runs, each under a name made of all it was made from."""

from __future__ import annotations

import functools
import json
from pathlib import Path
from typing import Any

from pydantic import BaseModel

from pourwright.app.learnt.used import used_in_sheets
from pourwright.app.shop import shop_folder
from pourwright.app.which import chosen_variants
from pourwright.app.working.orders import Order
from pourwright.foundation.files import canonical_json, sha256_of
from pourwright.jobs import job_hash
from pourwright.jobs.job import Job
from pourwright.runs import Cache, fingerprint


def answer_key(what: str, job: Job) -> str:
    """Name the answer to a variant of a job.

    Parameters
    ----------
    what : str
        "mold", "fill" or "cut".
    job : Job
        The variant.

    Returns
    -------
    str
        Another one after any change of the choices, the shape, the shop's materials, what the shop has
        learnt, or the program.
    """
    shape, materials = ([digest_of(one) for one in files(job)] for files in (shape_files, material_files))
    learnt = [(one.quantity, one.subject, one.value) for one in used_in_sheets(job) if not one.kept_family]
    return fingerprint(("answer", what, job_hash(job), shape, materials, learnt))


def keep_answer(what: str, order: Order, sheet: BaseModel) -> dict[str, Any]:
    """Keep a sheet, whole or not at all.

    Parameters
    ----------
    what : str
        "mold", "fill" or "cut".
    order : Order
        What it was made from.
    sheet : BaseModel
        The document.

    Returns
    -------
    dict
        ``variant`` and ``key``.
    """
    job = chosen_variants(order.job(), order.variant)[0]
    key = answer_key(what, job)
    content = canonical_json(sheet.model_dump(mode="json", by_alias=True))
    Cache().put(key, (content.decode(),))
    return {"variant": job.variant_name, "key": key}


def keep_paper(what: str, job: Job, paper: bytes) -> str:
    """Keep a sheet as it is printed.

    Parameters
    ----------
    what : str
        "mold", "fill" or "cut".
    job : Job
        The variant.
    paper : bytes
        A PDF file.

    Returns
    -------
    str
        Where it is kept.
    """
    key = paper_key(what, job)
    Cache().put(key, paper)
    return key


def paper_key(what: str, job: Job) -> str:
    """Name the printed sheet of a variant of a job, as `answer_key` names what it says."""
    return answer_key(f"{what} on paper", job)


def kept_paper(key: str | None) -> bytes | None:
    """Give a printed sheet back.

    Parameters
    ----------
    key : str or None
        Under which it was kept.

    Returns
    -------
    bytes or None
        A PDF file; None where it is no longer there.
    """
    found = None if key is None else Cache().get(key)
    return found if isinstance(found, bytes) else None


def kept_answer(key: str) -> dict[str, Any] | None:
    """Give a sheet back.

    Parameters
    ----------
    key : str
        Under which it was kept.

    Returns
    -------
    dict or None
        The document; None where it is no longer there.
    """
    match Cache().get(key):
        case (str(text),):
            found: dict[str, Any] = json.loads(text)
            return found
    return None


def shape_files(job: Job) -> list[Path]:
    """Files of a job's shape that are there."""
    files = [job.shape_file] if job.shape_file else []
    files += [job.path.parent / name for name in job.shape.drawings]
    return [file for file in files if file.is_file()]


def material_files(job: Job) -> list[Path]:
    """The shop's own records of materials."""
    shop = shop_folder(job)
    return [] if shop is None else sorted((shop / "materials").glob("*.toml"))


def digest_of(file: Path) -> str:
    """Fingerprint a file, reading it once for each time it was written.

    Parameters
    ----------
    file : Path
        It may be large.

    Returns
    -------
    str
        Its sha256; empty where it is gone.
    """
    try:
        about = file.stat()
    except OSError:
        return ""
    return _digest(file, about.st_mtime_ns, about.st_size, about.st_ino)


@functools.lru_cache(maxsize=256)
def _digest(file: Path, *_written: int) -> str:
    return sha256_of(file)
