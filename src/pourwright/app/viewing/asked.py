"""Which variant of a job is looked at, and the fingerprints of what its view comes from."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from pourwright.app.castable import refuse_uncastable_piece
from pourwright.app.document import job_info
from pourwright.app.molding.look import MoldLook, look_at_mold
from pourwright.app.plan_files import HEAT_FILE, PLAN_FILE
from pourwright.app.plan_folder import plan_place
from pourwright.app.shaping.piece import PieceRead, read_piece
from pourwright.app.viewing.kept import Latest
from pourwright.app.which import chosen_variants
from pourwright.app.working.answers import digest_of, material_files, shape_files
from pourwright.jobs import job_hash, load_job
from pourwright.jobs.job import Job
from pourwright.runs import fingerprint
from pourwright.sheets.wording import Wording

_PIECES, _LOOKS = Latest[PieceRead](3), Latest[MoldLook](3)


@dataclass(frozen=True)
class Asked:
    """One variant of a job, whose view is asked for.

    Parameters
    ----------
    job : Job
        The variant.
    plan_folder : Path
        Where the plan of this variant lies, if there is one.
    """

    job: Job
    plan_folder: Path

    @cached_property
    def words(self) -> Wording:
        """The maker's units."""
        return Wording(job_info(self.job))

    @cached_property
    def shape_key(self) -> str:
        """Fingerprint of the piece alone."""
        hashes = {one.name: digest_of(one) for one in shape_files(self.job)}
        told = self.job.shape.model_dump_json()
        # shrinking depends on what is cast in which rubber
        sized = (job_hash(self.job), self._outside) if "sizes" in self.job.model_fields_set else ()
        return fingerprint(("piece in view", told, sized, hashes))

    @cached_property
    def key(self) -> str:
        """Fingerprint of piece, mold and fill, and of every word about them."""
        told = (job_hash(self.job), self.job.variant_name, self._outside)
        return fingerprint(("view", self.shape_key, told))

    @cached_property
    def _outside(self) -> tuple[str, ...]:
        return tuple(digest_of(one) for one in material_files(self.job))

    @property
    def piece(self) -> PieceRead:
        """The piece, read once while it stays the same."""
        return _PIECES.get(self.shape_key, lambda: read_piece(self.job))

    @property
    def look(self) -> MoldLook:
        """The mold around it."""
        return _LOOKS.get(self.key, self._look)

    def _look(self) -> MoldLook:
        look = look_at_mold(self.job, self.piece)
        refuse_uncastable_piece(self.job, look.piece)
        return look

    @property
    def plan_file(self) -> Path:
        """The plan document."""
        return self.plan_folder / PLAN_FILE

    @property
    def heat_file(self) -> Path:
        """The plan's heat through time."""
        return self.plan_folder / HEAT_FILE


def asked(path: Path, variant: str | None = None) -> Asked:
    """Read a job and choose its variant.

    Parameters
    ----------
    path : Path
        Job file.
    variant : str, optional
        Its name; the first where left out.

    Returns
    -------
    Asked

    Raises
    ------
    UserError
        For a job that cannot be read, or has no such variant, with the line.
    """
    job = load_job(path)
    one = chosen_variants(job, variant)[0]
    return Asked(one, plan_place(job, one))
