"""What is typed after `pourwright log JOB`, read."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from pourwright.app.benching.step import bare
from pourwright.app.booking.entering import Said
from pourwright.app.booking.heights import read_level, shown_reading
from pourwright.app.booking.spoken_besides import BESIDES, water_mass
from pourwright.app.booking.words import KIND_WORDS
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import parse_quantity
from pourwright.foundation.quantities import Dimension
from pourwright.jobs.plan import PlanDocument
from pourwright.records import KINDS, Entry
from pourwright.records.moments import now

CANNOT = "cannot-read"
SPOKEN: dict[str, str] = {
    "weigh": 'weigh A or B, and how much, as: weigh A "412 g"',
    "mixed": 'how much, as: mixed "577 g"',
    "poured": 'how much, as: poured "2.4 kg"',
    "caught": 'how much was found beside the mold, as: caught "120 g"',
    "topped-up": 'how much, as: topped-up "200 g"',
    "clung": 'how much was left on face, funnel and stick, as: clung "14 g"',
    "level": 'from the mold\'s floor, as: level "85 mm"; or --dip, --standing, or: level cannot-read',
    "temperature": 'as: temperature "31 degC"',
    "gel": "nothing more: it no longer runs",
    "bubbles": "a few words, or nothing",
    "note": "a few words",
    "photo": "a file",
    "step": "what was done, in a few words",
    "demolded": "nothing more: it is out of its mold",
    **BESIDES,
}
"""Each word with what stands after it."""
_AMOUNTS = {
    "mixed": "mixed",
    "poured": "poured",
    "caught": "caught",
    "topped-up": "topped_up",
    "clung": "clung",
}
_SPOKEN_AS = {
    "weigh_a": ["weigh", "a"],
    "weigh_b": ["weigh", "b"],
    "topped_up": ["topped-up"],
    "no_level": ["level"],
    "water_level": ["level"],
    "crushed": ["mixed"],
    "sieved": ["mixed"],
    "rubber_a": ["mixed"],
    "rubber_b": ["mixed"],
}
"""How an entry of each kind is typed again."""
_WORDS = ("gel", "bubbles", "note", "step", "demolded")


@dataclass(frozen=True)
class Levels:
    """How a level was read otherwise than from the mold's floor as poured.

    Parameters
    ----------
    dip : str, optional
        From the rim down.
    standing : str, optional
        From the floor as the piece stands.
    """

    dip: str | None = None
    standing: str | None = None


PLAIN = Levels()


def understand(plan: PlanDocument, words: Sequence[str], levels: Levels = PLAIN) -> Said:
    """Read what was typed.

    Parameters
    ----------
    plan : PlanDocument
        What is poured.
    words : sequence of str
        Of the command line.
    levels : Levels
        Options for a level.

    Returns
    -------
    Said
        Of now, and of the pour that is under way.

    Raises
    ------
    UserError
        For a word that is not known, and for what cannot be read.
    """
    what, rest = words[0].lower(), list(words[1:])
    if what not in SPOKEN:
        allowed = ", ".join((*SPOKEN, "correct", "take-back"))
        raise UserError(
            f"'{words[0]}' is nothing to enter", where="log", allowed=allowed, todo="use one of these"
        )
    if what == "level":
        return _level(plan, rest, levels)
    if levels != PLAIN:
        raise UserError(f"'{what}' is no level", where="--dip", todo="use --dip and --standing with: level")
    if what in _WORDS:
        return Said(kind=what, at=now(), text=_text(what, rest))
    if what == "photo":
        return Said(kind="photo", at=now(), photo=_file(rest))
    return _measured(what, rest)


def _measured(what: str, rest: list[str]) -> Said:
    if what == "weigh":
        part = rest[0].lower() if rest else ""
        if part not in {"a", "b"}:
            raise _expected("weigh")
        return Said(kind=f"weigh_{part}", at=now(), value=_mass(what, rest[1:]))
    if what == "temperature":
        kelvin = parse_quantity(_only(what, rest), Dimension.TEMPERATURE, where=what).si
        return Said(kind=what, at=now(), value=round(kelvin - 273.15, 6))
    return Said(kind=_AMOUNTS[what], at=now(), value=_mass(what, rest))


def correction(plan: PlanDocument, old: Entry, rest: Sequence[str], levels: Levels = PLAIN) -> Said:
    """Read what an entry should have been.

    Parameters
    ----------
    plan : PlanDocument
        What is poured.
    old : Entry
        The entry that is corrected.
    rest : sequence of str
        What stands after its id.
    levels : Levels
        Options for a level.

    Returns
    -------
    Said
        At the time of the old one, unless told otherwise.

    Raises
    ------
    UserError
        For what cannot be read.
    """
    if old.kind in ("water", "size"):
        return _again(old, rest)
    said = understand(plan, [*_SPOKEN_AS.get(old.kind, [old.kind]), *rest], levels)
    kind = said.kind if old.kind in ("level", "no_level") else old.kind
    # which batch it was stays; that it was as planned does not
    kept = bare(old.text) if KINDS[old.kind] else ""
    return replace(said, kind=kind, replaces=old.id, at=old.at, text=said.text or kept)


def _again(old: Entry, rest: Sequence[str]) -> Said:
    text = _only(old.kind, list(rest))
    value = (
        water_mass(text) if old.kind == "water" else parse_quantity(text, Dimension.LENGTH, where=old.kind).si
    )
    return Said(kind=old.kind, at=old.at, value=value, text=old.text, replaces=old.id)


def taken_back(plan: PlanDocument, old: Entry) -> Said:
    """Take an entry back: a note in its place says what it was.

    Parameters
    ----------
    plan : PlanDocument
        What is poured.
    old : Entry
        The entry.

    Returns
    -------
    Said
        At the time of the old one.
    """
    said = (KIND_WORDS[old.kind], shown_reading(plan, old.kind, old.value), old.text)
    what = ", ".join(part for part in said if part)
    return Said(kind="note", at=old.at, text=f"taken back: {what}", replaces=old.id)


def _level(plan: PlanDocument, rest: list[str], levels: Levels) -> Said:
    ways = [("poured", " ".join(rest) or None), ("dip", levels.dip), ("standing", levels.standing)]
    given = [(how, text) for how, text in ways if text is not None]
    if len(given) != 1:
        raise _expected("level")
    ((how, text),) = given
    if how == "poured" and text.lower().replace(" ", "-") in {CANNOT, "cannot-read-below-glass"}:
        return Said(kind="no_level", at=now())
    return Said(kind="level", at=now(), value=read_level(plan, text, how))  # type: ignore[arg-type]


def _mass(what: str, rest: list[str]) -> float:
    return parse_quantity(_only(what, rest), Dimension.MASS, where=what).si


def _only(what: str, rest: list[str]) -> str:
    if not rest:
        raise _expected(what)
    return " ".join(rest)


def _text(what: str, rest: list[str]) -> str:
    text = " ".join(rest).strip()
    if not text and what in {"note", "step"}:
        raise _expected(what)
    return text


def _file(rest: list[str]) -> bytes:
    place = Path(_only("photo", rest))
    try:
        return place.read_bytes()
    except OSError as error:
        what = f"the photo cannot be read: {error.strerror or error}"
        raise UserError(what, where=str(place), todo="name a file that is there") from error


def _expected(what: str) -> UserError:
    return UserError(
        f"'{what}' needs something else after it", where="log", allowed=SPOKEN[what], todo="type it so"
    )
