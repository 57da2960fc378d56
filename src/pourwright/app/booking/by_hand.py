"""What is entered by hand on the page: the words of the terminal in fields, with its refusals."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Literal
from uuid import UUID, uuid5

from pourwright.app.booking.clock import read_when
from pourwright.app.booking.entering import Said, enter
from pourwright.app.booking.heights import Reading
from pourwright.app.booking.logging import grades_of
from pourwright.app.booking.places import book_place, plan_on_disk
from pourwright.app.booking.spoken import CANNOT, PLAIN, Levels, correction, taken_back, understand
from pourwright.app.booking.spoken_besides import BESIDES, besides
from pourwright.foundation.errors import UserError
from pourwright.jobs.plan import PlanDocument
from pourwright.records import Entry, entry_by_id, open_book

How = Literal["poured", "standing", "dip", "cannot"]
ENTERED: dict[str, tuple[str, str]] = {
    "weigh A": ("A weighed", "412 g"),
    "weigh B": ("B weighed", "185 g"),
    "mixed": ("Mixed", "577 g"),
    "poured": ("Poured", "2.4 kg"),
    "topped-up": ("Topped up", "200 g"),
    "caught": ("Found beside the mold", "120 g"),
    "clung": ("Left on face, funnel and stick", "14 g"),
    "level": ("Level", "85 mm"),
    "temperature": ("Temperature", "31 degC"),
    "gel": ("Gelled", ""),
    "bubbles": ("Bubbles", "a few words, or nothing"),
    "note": ("Note", "a few words"),
    "step": ("Done", "a few words"),
    "photo": ("Photo", "a few words, or nothing"),
    "demolded": ("Out of the mold", ""),
    "rubber A": ("Rubber, A weighed", "2.1 kg"),
    "rubber B": ("Rubber, B weighed", "2.1 kg"),
    "mold-made": ("The mold is made", ""),
    "water": ("Water in the mold and its level", "3 L at 85 mm"),
    "crushed": ("Glass crushed", "12 kg"),
    "sieved": ("Glass sieved: grade and how much", "coarse 4.2 kg"),
    "size": ("A size of the finished piece", "z 448.5 mm"),
}
"""What can be entered, as the form offers it, with an example of what is typed."""
_TWO_PARTS = ("sieved", "size")
_LEVELS = ("level", "no_level", "water_level")


@dataclass(frozen=True, kw_only=True)
class ByHand:
    """What stands in the form.

    Parameters
    ----------
    what : str
        One of `ENTERED`; not read for what changes an entry.
    value : str
        How much with its unit, or words.
    how : str
        How a level was read: ``poured`` from the mold's floor, ``standing``, ``dip`` from the rim, or that it
        ``cannot`` be read.
    at : str, optional
        On the shop's clock; else now, or when the entry was that is corrected.
    pour, casting : int, optional
        Else what is under way.
    photo : str, optional
        sha256 of a photo that was handed in before.
    again : bool
        It is not the same as what somebody else has entered.
    corrects, takes_back : str, optional
        Id of an entry.
    id : str, optional
        UUID of the form: sent again it is the same entry.
    """

    what: str = ""
    value: str = ""
    how: How = "poured"
    at: str | None = None
    pour: int | None = None
    casting: int | None = None
    photo: str | None = None
    again: bool = False
    corrects: str | None = None
    takes_back: str | None = None
    id: str | None = None


def enter_by_hand(folder: Path, asked: ByHand, variant: str | None = None) -> tuple[str, ...]:
    """Enter, correct or take back; on the disk when this returns.

    Parameters
    ----------
    folder : Path
        Of the job.
    asked : ByHand
        What stands in the form.
    variant : str, optional
        Needed where the job has plans of several.

    Returns
    -------
    tuple of str
        Ids of what was entered.

    Raises
    ------
    UserError
        For what cannot be, as at the terminal.
    """
    place, plan = book_place(folder), plan_on_disk(folder, variant).plan
    changed = asked.takes_back or asked.corrects
    if changed is None:
        said = _fresh(place, plan, asked)
    else:
        with open_book(place, make=False) as book:
            said = [_change(plan, entry_by_id(book, changed), asked)]
    if asked.at:
        at = read_when(asked.at, plan.job.time_zone)
        said = [replace(one, at=at) for one in said]
    told = [
        replace(one, pour=asked.pour, casting=asked.casting, again=asked.again, source="hand") for one in said
    ]
    return tuple(one.id for one in enter(folder, place, _once(told, asked.id), variant).entries)


def _once(said: Sequence[Said], form: str | None) -> list[Said]:
    """With ids of the form that says it: sent again it is the same entry."""
    if form is None:
        return list(said)
    return [replace(one, id=str(uuid5(UUID(form), str(number)))) for number, one in enumerate(said)]


def _fresh(place: Path, plan: PlanDocument, asked: ByHand) -> list[Said]:
    if asked.what not in ENTERED:
        allowed = ", ".join(ENTERED)
        raise UserError(
            f"'{asked.what}' is nothing to enter", where="what", allowed=allowed, todo="choose one of these"
        )
    word, *about = asked.what.split()
    if word == "photo":
        return [_photo(asked)]
    if word in BESIDES:
        rest, readings = _of_mold_and_glass(asked, word, about)
        return list(besides(plan, word, rest, readings, lambda: grades_of(place)))
    rest, levels = _typed(asked, is_level=word == "level")
    return [understand(plan, [word, *about, *rest], levels)]


def _of_mold_and_glass(
    asked: ByHand, word: str, about: list[str]
) -> tuple[list[str], dict[Reading, str | None]]:
    if word == "water":
        amount, _, level = asked.value.partition(" at ")
        if asked.how in ("dip", "standing"):
            return [amount], {asked.how: level}
        return [part for part in (amount, level) if part], {}
    return [*about, *(asked.value.split(maxsplit=1) if word in _TWO_PARTS else _words(asked))], {}


def _change(plan: PlanDocument, old: Entry, asked: ByHand) -> Said:
    if asked.takes_back is not None:
        return taken_back(plan, old)
    # what is typed here is never the name of a file
    if old.kind == "photo":
        return replace(_photo(asked), replaces=old.id, at=old.at)
    return correction(plan, old, *_typed(asked, is_level=old.kind in _LEVELS))


def _photo(asked: ByHand) -> Said:
    if asked.photo is None:
        raise UserError("no photo was handed in", where="photo", todo="choose one")
    return Said(kind="photo", photo_hash=asked.photo, text=asked.value)


def _typed(asked: ByHand, *, is_level: bool) -> tuple[list[str], Levels]:
    """What stands after the word at the terminal, and how a level was read."""
    if is_level and asked.how == "cannot":
        return [CANNOT], PLAIN
    if is_level and asked.how != "poured":
        return [], Levels(**{asked.how: asked.value})
    return _words(asked), PLAIN


def _words(asked: ByHand) -> list[str]:
    return [asked.value] if asked.value.strip() else []
