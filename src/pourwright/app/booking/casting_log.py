"""The log as it is read on the page: all castings of the shop, and one of them entry by entry."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import inf
from pathlib import Path
from typing import Any

from pourwright.app.booking.by_hand import ENTERED
from pourwright.app.booking.casting import read_casting
from pourwright.app.booking.clock import shown_day
from pourwright.app.booking.counting import zone_of
from pourwright.app.booking.logging import told_pours
from pourwright.app.booking.looking import Look, looked_into
from pourwright.app.booking.places import PlanOnDisk, plans_on_disk
from pourwright.app.booking.settling import document
from pourwright.app.booking.words import shown_value
from pourwright.app.shelf.places import job_places
from pourwright.foundation.errors import NotThereError, UserError
from pourwright.foundation.notation import UnitSystem
from pourwright.jobs.plan import JobInfo
from pourwright.records import Book, Cast, castings_in, casts, is_empty, jobs_in, plans_of
from pourwright.records.moments import written_maybe

PAGE = 50
"""So many castings are listed at once."""
_ASKS = {
    **dict.fromkeys(("level", "no_level", "water_level"), "level"),
    **dict.fromkeys(("gel", "demolded"), "time"),
    "photo": "photo",
    "mold_made": "",
}
"""What is asked of who corrects an entry, else a value; nothing of what can only be taken back."""


def castings_told(shop: Path, page: int = 1) -> dict[str, Any]:
    """List what was cast in a shop, the latest first.

    Parameters
    ----------
    shop : Path
        Its folder.
    page : int
        1 is the latest.

    Returns
    -------
    dict
        ``castings``, ``page`` and whether there are ``older`` ones; whether the whole book is ``empty``; what
        is ``told`` of journals.
    """
    with looked_into(shop) as look:
        if look is None:
            return {"castings": [], "page": page, "older": False, "empty": True, "told": []}
        zone, _ = zone_of(look.book)
        empty = is_empty(look.book)
        found = casts(look.book, most=PAGE + 1, after=(page - 1) * PAGE)
    rows = [told_cast(one, zone) for one in found[:PAGE]]
    older = len(found) > PAGE
    return {"castings": rows, "page": page, "older": older, "empty": empty, "told": list(look.told)}


def told_cast(cast: Cast, zone: str) -> dict[str, Any]:
    """Tell one casting.

    Parameters
    ----------
    cast : Cast
        As the book has it.
    zone : str
        Of the shop's clock.

    Returns
    -------
    dict
        As JSON, with its ``state`` in words.
    """
    return {
        "job": cast.job,
        "variant": cast.variant,
        "title": cast.title,
        "casting": cast.casting,
        "pours": cast.pours,
        "begun": written_maybe(cast.begun),
        "last": written_maybe(cast.last),
        "day": shown_day(cast.begun, zone),
        "out": written_maybe(cast.out),
        "piece": cast.piece,
        "state": _state(cast),
    }


def _state(cast: Cast) -> str:
    if cast.piece is not None:
        return f"finished, piece {cast.piece}"
    return "out of the mold" if cast.out else "under way"


def casting_told(
    shop: Path, job: str, variant: str | None = None, casting: int | None = None
) -> dict[str, Any]:
    """Tell the log of one casting.

    Parameters
    ----------
    shop : Path
        Its folder.
    job : str
        Name of the job, which need not be on the shelf any more.
    variant : str, optional
        Else the one that was poured last.
    casting : int, optional
        Else the last.

    Returns
    -------
    dict
        ``variants``, ``castings``, and the ``pours`` of the one that is meant with their entries; the plan of
        today and what ``may_enter`` where the job is on the shelf.

    Raises
    ------
    NotThereError
        Where nothing is known of such a job, variant or casting.
    """
    plans, on_shelf = _plans(shop, job)
    with looked_into(shop) as look:
        known = [] if look is None else [one for one in jobs_in(look.book) if one["job"] == job]
        names = list(dict.fromkeys([*(one["variant"] for one in known), *plans]))
        if not names and not on_shelf:
            raise NotThereError(
                "nothing is logged of such a job", where="job", todo="look at the list: /book"
            )
        name = _named(variant, names or [variant or "main"])
        numbers = () if look is None else castings_in(look.book, job, name)
        number = _meant(numbers, casting)
        told = {"told": []} if look is None else _told(look, job, name, number)
    head = {"name": job, "variant": name, "variants": names, "castings": list(numbers)}
    return head | {"casting": None, "pours": [], "piece": None} | _form(plans.get(name), job, told)


def _plans(shop: Path, job: str) -> tuple[dict[str, PlanOnDisk], bool]:
    """Today's plans of a job by variant, one that cannot be read is none; and whether it is on the shelf."""
    folder = next((one.folder for one in job_places(shop) if one.name == job), None)
    try:
        found = () if folder is None else plans_on_disk(folder)
    except UserError:
        found = ()
    return {one.variant: one for one in found}, folder is not None


def _named(variant: str | None, names: Sequence[str]) -> str:
    if variant is None:
        return names[0]
    if variant not in names:
        raise NotThereError(
            "this job has no such variant",
            where="variant",
            allowed=", ".join(names),
            todo="name one of these",
        )
    return variant


def _meant(numbers: Sequence[int], casting: int | None) -> int | None:
    if casting is None:
        return max(numbers, default=None)
    if casting not in numbers:
        allowed = ", ".join(map(str, numbers)) or "none yet"
        raise NotThereError(
            "this piece was not cast", where="casting", allowed=allowed, todo="name one of these"
        )
    return casting


def _told(look: Look, job: str, variant: str, number: int | None) -> dict[str, Any]:
    told: dict[str, Any] = {"told": list(look.told)}
    if number is None:
        return told
    (cast,) = casts(look.book, job=job, variant=variant, casting=number)
    info = _job(look.book, job, variant)
    pours = told_pours(look.book, read_casting(look.book, job, variant, number))
    # the piece as a whole comes last, as its mold is opened last
    pours.sort(key=lambda one: one["pour"] or inf)
    whole = sum(one["poured_kg"] for one in pours)
    return (
        told
        | told_cast(cast, info.time_zone)
        | {"units": info.units, "time_zone": info.time_zone, "pours": [_shown(one, info) for one in pours]}
        | {"poured_kg": whole, "poured": shown_value("poured", whole or None, info.units)}
    )


def _job(book: Book, job: str, variant: str) -> JobInfo:
    return document(book, plans_of(book, job, variant, most=1)[0].id).job


def _shown(pour: Mapping[str, Any], job: JobInfo) -> dict[str, Any]:
    """A pour with its sum in words, and by each corrected entry what took its place."""
    by_id = {one["id"]: one for one in pour["entries"]}
    entries = [
        one | {"now": _now(one, by_id.get(one["corrected_by"])), "asks": _ASKS.get(one["kind"], "value")}
        for one in pour["entries"]
    ]
    poured = shown_value("poured", pour["poured_kg"] or None, job.units)
    about = f"about {poured}" if poured and not pour["weighed"] else poured
    return {**pour, "poured": about, "entries": entries}


def _now(entry: Mapping[str, Any], newer: Mapping[str, Any] | None) -> str:
    if newer is None:
        return ""
    if newer["kind"] == "note" != entry["kind"]:
        return "taken back"
    return "now: " + ("; ".join(part for part in (newer["value"], newer["text"]) if part) or newer["when"])


def _form(plan: PlanOnDisk | None, job: str, told: dict[str, Any]) -> dict[str, Any]:
    """What the form needs; nothing can be entered for a job that is not on the shelf with a plan."""
    if plan is None:
        return {"title": job, "units": "metric", "time_zone": "UTC"} | told | {"may_enter": None}
    info = plan.plan.job
    may = {
        "kinds": [
            {"kind": kind, "name": name, "example": example} for kind, (name, example) in ENTERED.items()
        ],
        "pours": [pour.number for pour in plan.plan.pours],
        "plan": plan.hash,
        "version": plan.plan.version,
        "mass": "2.4 kg" if UnitSystem(info.units) is UnitSystem.METRIC else "5 lb 4 oz",
    }
    usual = {"title": info.title, "units": info.units, "time_zone": info.time_zone}
    return usual | told | {"may_enter": may}
