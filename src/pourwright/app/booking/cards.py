"""Finished pieces as the page and the paper show them: the list, and the card of each."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from datetime import datetime
from pathlib import Path
from typing import Any

from pourwright.app.booking.caring import care_of
from pourwright.app.booking.casting_log import told_cast
from pourwright.app.booking.clock import shown_day
from pourwright.app.booking.counting import zone_of
from pourwright.app.booking.finishing import piece_card
from pourwright.app.booking.looking import looked_into
from pourwright.app.booking.places import book_place
from pourwright.app.booking.settling import document
from pourwright.app.booking.words import shown_amount, shown_value
from pourwright.foundation.errors import NotThereError
from pourwright.jobs.plan import PlanDocument
from pourwright.records import Book, casts, open_book, photo_of, piece_by_number, pieces_of
from pourwright.records.moments import written
from pourwright.sheets.piece_card import PieceCard, card_pdf
from pourwright.sheets.wording import Wording

PAGE = 50
"""So many pieces are listed at once."""
WAITING = 20
_NONE_YET = "no piece has a number yet"


def pieces_told(shop: Path, below: int | None = None) -> dict[str, Any]:
    """List the finished pieces of a shop, the latest first, and what waits for its number.

    Parameters
    ----------
    shop : Path
        Its folder.
    below : int, optional
        Only those with a smaller number.

    Returns
    -------
    dict
        ``pieces``, ``older`` (the number that older ones lie below, or None), ``waiting`` castings, ``told``.
    """
    with looked_into(shop) as look:
        if look is None:
            return {"pieces": [], "older": None, "waiting": [], "told": []}
        zone, units = zone_of(look.book)
        found = pieces_of(look.book, most=PAGE + 1, below=below)
        waiting = [told_cast(one, zone) for one in casts(look.book, waiting=True, most=WAITING)]
    pieces = [
        {
            "number": one.number,
            "title": one.title,
            "mass_kg": one.mass_kg,
            "mass": shown_value("poured", one.mass_kg, units),
            "finished": written(one.finished),
            "day": shown_day(one.finished, zone),
            "photo": one.photo_hash,
            "note": one.note,
        }
        for one in found[:PAGE]
    ]
    older = pieces[-1]["number"] if len(found) > PAGE else None
    return {"pieces": pieces, "older": older, "waiting": waiting, "told": list(look.told)}


def piece_told(shop: Path, number: int) -> dict[str, Any]:
    """Tell the card of a finished piece.

    Parameters
    ----------
    shop : Path
        Its folder.
    number : int
        Of the piece.

    Returns
    -------
    dict
        As `pourwright.app.booking.finishing.piece_card`, with words, sizes and what to mind.

    Raises
    ------
    NotThereError
        Where there is no such piece.
    """
    with looked_into(shop) as look:
        if look is None:
            raise NotThereError(_NONE_YET, where="piece", todo="finish one first")
        return _told(look.book, number) | {"told": list(look.told)}


def _told(book: Book, number: int) -> dict[str, Any]:
    card = piece_card(book, number)
    plan = document(book, piece_by_number(book, number).plan_id)
    units, zone = plan.job.units, plan.job.time_zone
    days = {f"{name}_on": _day(card[name], zone) for name in ("begun", "demolded", "finished")}
    lots = [
        {
            **one,
            "amount_shown": shown_amount(one["amount"], one["unit"], units),
            "bought_on": _day(one["bought"], zone),
        }
        for one in card["lots"]
    ]
    return (
        card
        | days
        | {
            "mass": shown_value("poured", card["mass_kg"], units),
            "poured": shown_value("poured", card["poured_kg"] or None, units),
            "glass": shown_value("poured", _glass(card["lots"]), units),
            "size": _size(plan),
            "invented": plan.job.invented,
            "paper": plan.job.paper,
            "lots": lots,
            "care": [asdict(one) for one in care_of(plan, card["mass_kg"])],
        }
    )


def _day(iso: str | None, zone: str) -> str:
    return shown_day(None if iso is None else datetime.fromisoformat(iso), zone)


def _glass(lots: Sequence[Mapping[str, Any]]) -> float | None:
    """What the stock gave [kg]; None where it gave none."""
    return sum(one["amount"] for one in lots if one["kind"] == "glass") or None


def _size(plan: PlanDocument) -> str:
    """Of the finished piece as planned."""
    return Wording(plan.job).size(plan.piece.finished_size_m or plan.piece.size_m)


def piece_pdf(shop: Path, number: int) -> bytes:
    """Make the card of a finished piece.

    Parameters
    ----------
    shop : Path
        Its folder.
    number : int
        Of the piece.

    Returns
    -------
    bytes
        A PDF file of half a sheet.

    Raises
    ------
    NotThereError
        Where there is no such piece.
    """
    with open_book(book_place(shop), make=False) as book:
        told = _told(book, number)
        photo = photo_of(book, told["photos"][0]) if told["photos"] else None
    return card_pdf(
        PieceCard(
            paper=told["paper"],
            number=number,
            title=told["title"],
            variant=told["variant"],
            invented=told["invented"],
            size=told["size"],
            facts=_facts(told),
            lots=[(str(one["lot"]), one["name"], one["amount_shown"]) for one in told["lots"]],
            care=[(one["word"], one["text"]) for one in told["care"]],
            note=told["note"],
            plan=told["plan"],
            version=told["version"],
            finished=datetime.fromisoformat(told["finished"]),
            photo=photo,
        )
    )


def _facts(told: Mapping[str, Any]) -> list[tuple[str, str, str]]:
    facts = [
        ("weighs", told["mass"], ""),
        ("resin", told["poured"], "poured in"),
        ("glass", told["glass"], "from the stock"),
        ("cast", told["begun_on"], "the first pour"),
        ("out of the mold", told["demolded_on"], ""),
        ("finished", told["finished_on"], ""),
    ]
    return [one for one in facts if one[1]]
