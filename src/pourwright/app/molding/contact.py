"""Will it stick: the contact of rubber, master, old rubber and cast, as part of the mold's document."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.contact import (
    Contact as Judged,
    better_words,
    cast_of,
    contact_of,
    layers_words,
    stop_todo,
    stop_words,
)
from pourwright.app.molding.look import MoldLook
from pourwright.foundation.progress import Progress
from pourwright.foundation.sources import load_sources
from pourwright.jobs.mold_contact import Coating, Contact, ContactCell, Patch
from pourwright.materials.contact import Coat, Verdict, load_contact
from pourwright.mold.sticking import Judgement

GLOVES = (
    "Latex gloves hold sulfur and spoil rubber that cures by platinum: wear nitrile or vinyl, "
    "and keep its cups, sticks and brushes apart from those of tin rubber."
)


def contact_look(look: MoldLook, progress: Progress) -> Contact:  # noqa: ARG001 - one shape for all looks
    """Say whether the rubber sets on the master and lets go of it.

    Parameters
    ----------
    look : MoldLook
        The mold.
    progress : Progress
        Not needed.

    Returns
    -------
    Contact
    """
    judged = contact_of(look.job, look.mold.choices.rubber)
    cast, unknown = cast_of(look.casting)
    layers, platinum = judged.master.layers, judged.rubber.cure_kind == "platinum"
    hints = [hint for one in judged.judged for hint in one.hints]
    return Contact(
        verdict=judged.verdict,
        surface=layers.surface,
        rubber_cures_by=judged.rubber.cure_kind,
        sealer=_coating(layers.sealer, judged.sealer),
        release=_coating(layers.release, judged.release),
        on_old_rubber=judged.old_rubber is not None,
        cells=list(_cells(judged)),
        patch=_patch(judged),
        better=", ".join(better_words(judged)),
        cast=look.casting.name,
        cast_verdict="test first" if cast is None else cast.verdict(judged.rubber.cure_kind),
        cast_why=unknown if cast is None else (cast.why if platinum else cast.tin_why),
        cast_release="" if cast is None else load_contact().release[cast.release].name,
        unknown=[*hints, *([unknown] if unknown else [])],
        warnings=list(_warnings(judged)),
        cautions=[GLOVES] if platinum else [],
    )


def _patch(judged: Judged) -> Patch:
    passed = judged.job.master.patch_test
    return Patch(
        verdict=judged.verdict,
        layers=layers_words(judged.master.layers),
        passed="" if passed is None else passed.isoformat(),
        blocked=judged.needs_patch,
        cures_h=judged.rubber.demold_time.value / 3600,
    )


def _warnings(judged: Judged) -> Iterator[str]:
    if not judged.needs_patch:
        return
    if judged.verdict == "no":
        yield f"Do not pour: {stop_words(judged)}. What mends it: {stop_todo(judged)}."
    else:
        on = layers_words(judged.master.layers)
        what = f"{judged.rubber.name} on {on}: test first"
        yield f"{what}. Mix no rubber before a test patch has come off clean."


def _cells(judged: Judged) -> Iterator[ContactCell]:
    yield from _cells_of(judged.master, "master")
    if judged.old_rubber is not None:
        yield from _cells_of(judged.old_rubber, "old rubber")


def _cells_of(one: Judgement, face: str) -> Iterator[ContactCell]:
    for cell in one.cells:
        yield ContactCell.model_validate(
            {
                "face": face,
                "what": cell.what,
                "why": cell.why,
                "bare": cell.bare,
                "left": cell.left,
                "coat": cell.coat,
                "known": known_from(cell.kind, cell.source),
            }
        )


def _coating(name: str, coat: Coat | None) -> Coating:
    if coat is None:
        left: Verdict = "test first"
        return Coating(
            id=name, name=f"'{name}'", coats=1, dries_h=0.0, how=left, none_on="", known="not in the table"
        )
    return Coating(
        id=coat.id,
        name=coat.name,
        coats=coat.coats,
        dries_h=coat.days.value / 3600,
        how=coat.how,
        none_on=coat.none_on,
        known=known_from(coat.kind, coat.source),
    )


def known_from(kind: str, source: str) -> str:
    """Say in a few words where an entry is known from."""
    if source in {"common-practice", "families-from-memory"}:
        return kind
    return f"{kind}: {load_sources()[source].citation}"
