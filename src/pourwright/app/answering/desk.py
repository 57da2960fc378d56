"""What is dear, kept between two requests: shapes as read, space blocks as found, the last good answers."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass
from pathlib import Path
from threading import Lock, RLock
from typing import Generic, TypeVar

from pourwright import geometry
from pourwright.app.answering.document import Answers
from pourwright.app.answering.keys import blocks_key, body_key, hashes_of, is_large, job_key, materials_key
from pourwright.app.answering.looked import CheapLook, look_cheaply
from pourwright.app.answering.skins import SkinCurve, skin_key
from pourwright.app.learnt.in_force import shop_materials
from pourwright.app.running import open_cache
from pourwright.app.shaping.piece import BodyRead, PieceRead, piece_of, read_body
from pourwright.app.which import chosen_variants
from pourwright.geometry import Mesh
from pourwright.geometry.kept import Question, lay_beside
from pourwright.jobs import Answers as Asked, load_job, read_job, write_new_job
from pourwright.jobs.job import Job
from pourwright.mold.blocks.asked import BlocksAsked
from pourwright.mold.space_block import SpaceBlock
from pourwright.pour.store import Store

V = TypeVar("V")
SMALL = Asked(
    title="small", material="epoxy-slow-deep", shop_temperature="20 degC", box=("60 mm", "60 mm", "30 mm")
)
MOST_BODIES, MOST_LOOKS, MOST_ANSWERS = 6, 12, 64


class Few(Generic[V]):
    """The values used last, each made once however many ask at the same time.

    Parameters
    ----------
    most : int
        How many are kept.
    """

    def __init__(self, most: int) -> None:
        self._most = most
        self._kept: OrderedDict[Hashable, V] = OrderedDict()
        self._making: dict[Hashable, RLock] = {}
        self._lock = Lock()

    def get(self, key: Hashable) -> V | None:
        """Give what is kept under a key; None where there is nothing."""
        with self._lock:
            if key not in self._kept:
                return None
            self._kept.move_to_end(key)
            return self._kept[key]

    def put(self, key: Hashable, value: V) -> None:
        """Keep a value; the one longest unused goes."""
        with self._lock:
            self._kept[key] = value
            self._kept.move_to_end(key)
            while len(self._kept) > self._most:
                self._kept.popitem(last=False)

    def made(self, key: Hashable, make: Callable[[], V]) -> V:
        """Give what is kept under a key, or make it; who comes meanwhile waits for it."""
        with self._lock:
            turn = self._making.setdefault(key, RLock())
        try:
            with turn:
                found = self.get(key)
                if found is None:
                    found = make()
                    self.put(key, found)
                return found
        finally:
            with self._lock:
                self._making.pop(key, None)


@dataclass(frozen=True)
class Known:
    """A body with all that was found out about it.

    Parameters
    ----------
    body : BodyRead
        As read.
    facts : mapping
        From `pourwright.geometry.kept.beside`.
    """

    body: BodyRead
    facts: dict[Question, object]


class Desk:
    """One for a server; every method may be called from any thread.

    Parameters
    ----------
    store : Store, optional
        Of results on disk; the user's own where left out.
    """

    def __init__(self, store: Store | None = None) -> None:
        self.store = open_cache() if store is None else store
        self._jobs: Few[Job] = Few(MOST_LOOKS)
        self._bodies: Few[BodyRead] = Few(MOST_BODIES)
        self._looks: Few[CheapLook] = Few(MOST_LOOKS)
        self._blocks: Few[tuple[SpaceBlock, ...]] = Few(MOST_ANSWERS)
        self._last: Few[Answers] = Few(MOST_ANSWERS)
        self._starting = False

    @property
    def starting(self) -> bool:
        """Whether what computes is being made ready; the first time it is compiled."""
        return self._starting

    def job(self, folder: Path, variant: str | None) -> Job:
        """Load one variant of a job, and read its file only where it was written anew.

        Parameters
        ----------
        folder : Path
            Of the job.
        variant : str or None
            Name of one; the first where left out.

        Returns
        -------
        Job

        Raises
        ------
        UserError
            For a job that cannot be used.
        """
        try:
            about = (folder / "job.toml").stat()
        except OSError:
            return chosen_variants(load_job(folder), variant)[0]
        key = (str(folder), about.st_ino, about.st_mtime_ns, about.st_size)
        return chosen_variants(self._jobs.made(key, lambda: load_job(folder)), variant)[0]

    def body(self, job: Job) -> BodyRead | None:
        """Give the body of a job.

        Parameters
        ----------
        job : Job
            One variant.

        Returns
        -------
        BodyRead or None
            None for a large file that nobody has read yet.

        Raises
        ------
        UserError
            For a file that cannot be read.
        """
        key = body_key(job)
        found = self._bodies.get(key)
        if found is not None or not is_large(job):
            return found or self._bodies.made(key, lambda: read_body(job))
        known = self.store.get(key)
        if not isinstance(known, Known):
            return None
        return self._bodies.made(key, lambda: _opened(known))

    def look(self, job: Job) -> CheapLook | None:
        """Design mold and fill of a job without what is slow.

        Parameters
        ----------
        job : Job
            One variant.

        Returns
        -------
        CheapLook or None
            None for a large file that nobody has read yet.

        Raises
        ------
        UserError
            For choices that do not fit, with their line.
        """
        body = self.body(job)
        if body is None:
            return None
        key = (body_key(job), job_key(job), materials_key(job))
        found = self._looks.get(key)
        if found is None or self._found_since(found):
            materials = shop_materials(job)
            piece = self._piece(job, body)
            skin = self.skin(piece.mesh) if job.mold.way == "skin" else None
            found = look_cheaply(job, piece, materials, self.blocks, skin)
            self._looks.put(key, found)
        return found

    def _piece(self, job: Job, body: BodyRead) -> PieceRead:
        return piece_of(job, body, hashes_of(job))

    def _found_since(self, look: CheapLook) -> bool:
        """Whether something that a look had to do without is known by now."""
        if look.skin_missing and self.skin(look.piece.mesh) is not None:
            return True
        blocks = [self.blocks(asked) for asked in look.blocks_missing]
        return bool(blocks) and None not in blocks

    def skin(self, mesh: Mesh) -> SkinCurve | None:
        """Give the skins of a piece, where somebody has measured them."""
        found = self.store.get(skin_key(mesh))
        return found if isinstance(found, SkinCurve) else None

    def blocks(self, asked: BlocksAsked) -> tuple[SpaceBlock, ...] | None:
        """Give space blocks that were found before.

        Parameters
        ----------
        asked : BlocksAsked
            The question.

        Returns
        -------
        tuple of SpaceBlock or None
            None where nobody has looked for them yet.
        """
        key = blocks_key(asked)
        found = self._blocks.get(key)
        if found is None:
            stored = self.store.get(key)
            found = stored if isinstance(stored, tuple) else None
            if found is not None:
                self._blocks.put(key, found)
        return found

    def last(self, file: Path, variant: str | None) -> Answers | None:
        """Give the last good answers about a job."""
        return self._last.get((file, variant))

    def keep_last(self, file: Path, variant: str | None, answers: Answers) -> None:
        """Keep good answers about a job."""
        self._last.put((file, variant), answers)

    def warm(self) -> None:
        """Make ready, or compile, what the first answer needs; who asks meanwhile is told so."""
        self._starting = True
        try:
            for _ in geometry.warm_up():
                pass
            self.look(read_job(write_new_job(SMALL)))
        finally:
            self._starting = False


def _opened(known: Known) -> BodyRead:
    lay_beside(known.body.turned.mesh, known.facts)
    return known.body
