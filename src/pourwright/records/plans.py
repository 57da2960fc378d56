"""Plans that something was entered about, and their pours."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from datetime import datetime

from pourwright.foundation.errors import NotThereError
from pourwright.records.book import Book
from pourwright.records.moments import read, read_maybe, written, written_maybe


@dataclass(frozen=True, kw_only=True)
class Plan:
    """A plan that something was entered about.

    Parameters
    ----------
    id : int
        In this book.
    hash : str
        sha256 of its plan.json.
    version : str
        Of the program that made it.
    job, variant, title : str
        Whose plan it is: name of the job's folder, the variant, the piece.
    made : datetime
        When it was made.
    """

    id: int
    hash: str
    version: str
    job: str
    variant: str
    title: str
    made: datetime


@dataclass(frozen=True, kw_only=True)
class Pour:
    """One pour of one casting.

    Parameters
    ----------
    id : int
        In this book.
    plan_id : int
        Its plan.
    casting : int
        1 for the first piece that was cast by this plan, 2 for the next.
    number : int
        As the plan counts; 0 for what concerns the piece as a whole.
    kind : str
        ``resin``, ``mineral``, ``rubber`` or ``piece``.
    begun, ended : datetime, optional
        When.
    """

    id: int
    plan_id: int
    casting: int
    number: int
    kind: str
    begun: datetime | None = None
    ended: datetime | None = None


def keep_plan(book: Book, plan: Plan, document: str) -> Plan:
    """Keep a plan; one that is there already, by its hash, job and variant, stays as it is.

    Parameters
    ----------
    book : Book
        Open.
    plan : Plan
        Its ``id`` is not used.
    document : str
        Its plan.json.

    Returns
    -------
    Plan
        As the book has it.
    """
    with book.writing():
        if found := plan_by_hash(book, plan.hash, plan.job, plan.variant):
            return found
        book.change(
            "INSERT INTO plans (hash, version, job, variant, title, made_utc, document)"
            " VALUES (?,?,?,?,?,?,?)",
            (plan.hash, plan.version, plan.job, plan.variant, plan.title, written(plan.made), document),
        )
        kept = plan_by_hash(book, plan.hash, plan.job, plan.variant)
    assert kept is not None
    return kept


_PLAN = "SELECT id, hash, version, job, variant, title, made_utc FROM plans"


def plan_by_hash(book: Book, sha256: str, job: str | None = None, variant: str | None = None) -> Plan | None:
    """Find a plan by its hash.

    Parameters
    ----------
    book : Book
        Open.
    sha256 : str
        Of its plan.json.
    job, variant : str, optional
        Whose; else the first that it was kept for, as two jobs may have the very same plan.

    Returns
    -------
    Plan or None
    """
    asked = (
        f"{_PLAN} WHERE hash = ?1 AND (?2 IS NULL OR job = ?2) AND (?3 IS NULL OR variant = ?3)"
        " ORDER BY id LIMIT 1"
    )
    found = book.row(asked, (sha256, job, variant))
    return None if found is None else _plan(found)


def plan_by_id(book: Book, plan_id: int) -> Plan:
    """Find a plan by its id.

    Parameters
    ----------
    book : Book
        Open.
    plan_id : int
        In this book.

    Returns
    -------
    Plan

    Raises
    ------
    NotThereError
        Where there is none.
    """
    found = book.row(f"{_PLAN} WHERE id = ?", (plan_id,))
    if found is None:
        raise NotThereError(
            f"no plan {plan_id} is in the book", where=str(book.path), todo="look at the list"
        )
    return _plan(found)


def plans_of(
    book: Book, job: str | None = None, variant: str | None = None, *, most: int = -1
) -> tuple[Plan, ...]:
    """List plans, the latest first.

    Parameters
    ----------
    book : Book
        Open.
    job, variant : str, optional
        Of this job and variant only.
    most : int
        So many at the most; all with -1.

    Returns
    -------
    tuple of Plan
    """
    asked = (
        f"{_PLAN} WHERE (?1 IS NULL OR job = ?1) AND (?2 IS NULL OR variant = ?2)"
        " ORDER BY made_utc DESC, id DESC LIMIT ?3"
    )
    return tuple(_plan(row) for row in book.rows(asked, (job, variant, most)))


def document_of(book: Book, plan_id: int) -> str:
    """Give the plan.json that a plan is.

    Parameters
    ----------
    book : Book
        Open.
    plan_id : int
        In this book.

    Returns
    -------
    str
        JSON.

    Raises
    ------
    NotThereError
        Where there is none.
    """
    plan_by_id(book, plan_id)
    found = book.row("SELECT document FROM plans WHERE id = ?", (plan_id,))
    return "" if found is None else str(found[0])


def keep_pour(
    book: Book,
    plan_id: int,
    number: int,
    *,
    casting: int = 1,
    kind: str = "resin",
    begun: datetime | None = None,
) -> Pour:
    """Find a pour, or begin it.

    Parameters
    ----------
    book : Book
        Open.
    plan_id : int
        Its plan.
    number : int
        As the plan counts; 0 for the piece as a whole.
    casting : int
        Which piece that is cast by this plan.
    kind : str
        ``resin``, ``mineral``, ``rubber`` or ``piece``.
    begun : datetime, optional
        Noted where no beginning is noted yet, or a later one.

    Returns
    -------
    Pour
        As the book has it.
    """
    key = (plan_id, casting, kind, number)
    with book.writing():
        book.change("INSERT OR IGNORE INTO pours (plan_id, casting, kind, number) VALUES (?,?,?,?)", key)
        if begun is not None:
            book.change(
                "UPDATE pours SET begun_utc = min(coalesce(begun_utc, ?1), ?1)"
                " WHERE plan_id = ?2 AND casting = ?3 AND kind = ?4 AND number = ?5",
                (written(begun), *key),
            )
        found = book.row(f"{_POUR} WHERE plan_id = ? AND casting = ? AND kind = ? AND number = ?", key)
    assert found is not None
    return _pour(found)


_POUR = "SELECT id, plan_id, casting, number, kind, begun_utc, ended_utc FROM pours"


def pour_by_id(book: Book, pour_id: int) -> Pour:
    """Find a pour by its id.

    Parameters
    ----------
    book : Book
        Open.
    pour_id : int
        In this book.

    Returns
    -------
    Pour

    Raises
    ------
    NotThereError
        Where there is none.
    """
    found = book.row(f"{_POUR} WHERE id = ?", (pour_id,))
    if found is None:
        raise NotThereError(
            f"no pour {pour_id} is in the book", where=str(book.path), todo="look at the list"
        )
    return _pour(found)


def pours_of(book: Book, plan_id: int, casting: int | None = None) -> tuple[Pour, ...]:
    """List the pours of a plan, in their order.

    Parameters
    ----------
    book : Book
        Open.
    plan_id : int
        The plan.
    casting : int, optional
        Of this piece only.

    Returns
    -------
    tuple of Pour
    """
    asked = f"{_POUR} WHERE plan_id = ?1 AND (?2 IS NULL OR casting = ?2) ORDER BY casting, number, kind"
    return tuple(_pour(row) for row in book.rows(asked, (plan_id, casting)))


def pours_of_job(
    book: Book, job: str, variant: str, casting: int | None = None
) -> tuple[tuple[Plan, Pour], ...]:
    """List the pours of a job in the order of its castings, each with the plan that it was begun under.

    Parameters
    ----------
    book : Book
        Open.
    job, variant : str
        Whose.
    casting : int, optional
        Of this piece only.

    Returns
    -------
    tuple of (Plan, Pour)
    """
    asked = (
        "SELECT pours.id, plan_id, casting, number, kind, begun_utc, ended_utc FROM plans"
        " JOIN pours ON plan_id = plans.id WHERE job = ?1 AND variant = ?2 AND (?3 IS NULL OR casting = ?3)"
        " ORDER BY casting, number, pours.id"
    )
    pours = [_pour(row) for row in book.rows(asked, (job, variant, casting))]
    plans = {plan_id: plan_by_id(book, plan_id) for plan_id in {pour.plan_id for pour in pours}}
    return tuple((plans[pour.plan_id], pour) for pour in pours)


def castings_in(book: Book, job: str, variant: str) -> tuple[int, ...]:
    """List the numbers of the pieces that a job was cast for.

    Parameters
    ----------
    book : Book
        Open.
    job, variant : str
        Whose.

    Returns
    -------
    tuple of int
        In their order.
    """
    asked = (
        "SELECT DISTINCT casting FROM plans JOIN pours ON plan_id = plans.id WHERE job = ? AND variant = ?"
        " ORDER BY casting"
    )
    return tuple(row[0] for row in book.rows(asked, (job, variant)))


def end_pour(book: Book, pour_id: int, at: datetime | None) -> None:
    """Note that a pour is over, or with None that it is not.

    Parameters
    ----------
    book : Book
        Open.
    pour_id : int
        The pour.
    at : datetime or None
        When.
    """
    with book.writing():
        book.change("UPDATE pours SET ended_utc = ? WHERE id = ?", (written_maybe(at), pour_id))


def _plan(row: sqlite3.Row) -> Plan:
    return Plan(
        id=row["id"],
        hash=row["hash"],
        version=row["version"],
        job=row["job"],
        variant=row["variant"],
        title=row["title"],
        made=read(row["made_utc"]),
    )


def _pour(row: sqlite3.Row) -> Pour:
    return Pour(
        id=row["id"],
        plan_id=row["plan_id"],
        casting=row["casting"],
        number=row["number"],
        kind=row["kind"],
        begun=read_maybe(row["begun_utc"]),
        ended=read_maybe(row["ended_utc"]),
    )
