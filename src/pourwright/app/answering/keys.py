"""Names of what is kept: the same file and the same lines have the same name."""

from __future__ import annotations

import hashlib
import json
from dataclasses import fields
from pathlib import Path
from threading import Lock

from pourwright.app.learnt.in_force import in_force
from pourwright.app.shop import shop_folder
from pourwright.foundation.files import sha256_of
from pourwright.jobs.job import Job
from pourwright.mold.blocks.asked import BlocksAsked
from pourwright.runs import fingerprint

MOST_HASHES = 64
BYTES_EACH = 50
"""Of a triangle in the densest common file."""
MOST_TRIANGLES = 60_000
"""A larger file is read beside the server: it takes seconds."""
SLOW_FILES = {".step", ".stp"}

_hashes: dict[tuple[str, int, int], str] = {}
_lock = Lock()


def file_hash(path: Path) -> str:
    """Fingerprint a file, and read it only where its size or time has changed.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    str
        sha256; empty where there is no such file.
    """
    try:
        about = path.stat()
    except OSError:
        return ""
    name = (str(path.resolve()), about.st_size, about.st_mtime_ns)
    with _lock:
        found = _hashes.get(name)
    if found is None:
        found = sha256_of(path)
        with _lock:
            _hashes[name] = found
            while len(_hashes) > MOST_HASHES:
                _hashes.pop(next(iter(_hashes)))
    return found


def hashes_of(job: Job) -> dict[str, str]:
    """Fingerprint the files of a job, as `pourwright.jobs.input_hashes` does.

    Parameters
    ----------
    job : Job
        As loaded.

    Returns
    -------
    dict
        sha256 by file name; what is not there is left out.
    """
    found = {path.name: file_hash(path) for path in (job.path, *shape_files(job))}
    return {name: digest for name, digest in found.items() if digest}


def shape_files(job: Job) -> tuple[Path, ...]:
    """List the files a job's shape is read from.

    Parameters
    ----------
    job : Job
        As loaded.

    Returns
    -------
    tuple of Path
    """
    own = (job.shape_file,) if job.shape_file else ()
    return (*own, *(job.path.parent / name for name in job.shape.drawings))


def body_key(job: Job) -> str:
    """Name the body of a job: its shape section, its units, what is in its files, and our code.

    Parameters
    ----------
    job : Job
        As loaded.

    Returns
    -------
    str
        64 hexadecimal digits.
    """
    digests = tuple(file_hash(path) for path in shape_files(job))
    # words about the file name the job file, so two jobs with one shape are kept apart
    place = str(job.path.resolve())
    return fingerprint(("body", place, job.units, _plain(job.raw.get("shape")), digests))


def job_key(job: Job) -> str:
    """Name all that a variant says, comments aside.

    Parameters
    ----------
    job : Job
        As loaded.

    Returns
    -------
    str
        sha256.
    """
    others = [_plain(other.raw) for other in job.others]
    said = "\n".join([str(job.path.resolve()), job.variant_name, _plain(job.raw), *others])
    lines = ",".join(f"{path}:{line}" for path, line in job.lines.items())
    return hashlib.sha256(f"{said}\n{lines}".encode()).hexdigest()


def materials_key(job: Job) -> tuple[object, ...]:
    """Name the shop's own records of materials by their files, sizes and times, and what it has learnt.

    Parameters
    ----------
    job : Job
        As loaded.

    Returns
    -------
    tuple
    """
    shop = shop_folder(job)
    found = [] if shop is None else sorted((shop / "materials").glob("*.toml"))
    files = ((str(path), (about := path.stat()).st_mtime_ns, about.st_size) for path in found)
    learnt = ((one.quantity, one.subject, one.value) for one in in_force(job.path.parent))
    return (*files, *learnt)


def blocks_key(asked: BlocksAsked) -> str:
    """Name a question for space blocks.

    Parameters
    ----------
    asked : BlocksAsked
        With its piece.

    Returns
    -------
    str
        64 hexadecimal digits.
    """
    said = tuple(getattr(asked, field.name) for field in fields(asked) if field.compare)
    return fingerprint(("space blocks", said))


def is_large(job: Job) -> bool:
    """Say whether a shape takes too long to read while somebody waits for a page.

    Parameters
    ----------
    job : Job
        As loaded.

    Returns
    -------
    bool
    """
    path = job.shape_file
    if path is None or not path.is_file():
        return False
    slow = path.suffix.lower() in SLOW_FILES or job.shape.remesh is not None
    return slow or path.stat().st_size > BYTES_EACH * MOST_TRIANGLES


def _plain(value: object) -> str:
    return json.dumps(value, sort_keys=True, default=str)
