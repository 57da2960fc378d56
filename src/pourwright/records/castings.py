"""The pieces that were cast in the shop, each with all its pours in one row."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from datetime import datetime

from pourwright.records.book import Book
from pourwright.records.moments import read_maybe


@dataclass(frozen=True, kw_only=True)
class Cast:
    """One piece that was cast, or is under way.

    Parameters
    ----------
    job, variant, title : str
        Whose; as its latest plan calls it.
    casting : int
        Counts the pieces of this job and variant.
    pours : int
        So many have begun.
    begun, last : datetime, optional
        When its first and its latest pour began.
    out : datetime, optional
        When it came out of its mold.
    piece : int, optional
        Its number, once it is finished.
    """

    job: str
    variant: str
    title: str
    casting: int
    pours: int
    begun: datetime | None
    last: datetime | None
    out: datetime | None
    piece: int | None


_OUT = (
    "SELECT job, variant, casting, max(at_utc) AS out_utc FROM entries AS each"
    " JOIN pours ON pours.id = pour_id JOIN plans ON plans.id = plan_id WHERE each.kind = 'demolded'"
    " AND NOT EXISTS (SELECT 1 FROM entries AS newer WHERE newer.replaces = each.id)"
    " GROUP BY job, variant, casting"
)
_NUMBERED = (
    "SELECT job, variant, casting, max(number) AS piece FROM pieces JOIN plans ON plans.id = plan_id"
    " GROUP BY job, variant, casting"
)
_CASTS = (
    "SELECT job, variant, casting, count(DISTINCT nullif(number, 0)) AS pours, min(begun_utc) AS begun_utc,"
    " max(begun_utc) AS last_utc, max(plan_id) AS latest FROM pours JOIN plans ON plans.id = plan_id"
    " GROUP BY job, variant, casting"
)
_ORDER = "last_utc DESC NULLS LAST, job, variant, casting DESC"
_ASKED = " ".join(
    (
        f"WITH of_out AS ({_OUT}), numbered AS ({_NUMBERED}), casts AS ({_CASTS}), page AS (",
        "SELECT casts.*, out_utc, piece FROM casts LEFT JOIN of_out USING (job, variant, casting)",
        "LEFT JOIN numbered USING (job, variant, casting) WHERE (?1 IS NULL OR job = ?1)",
        "AND (?5 IS NULL OR variant = ?5) AND (?6 IS NULL OR casting = ?6)",
        f"AND (NOT ?2 OR (out_utc IS NOT NULL AND piece IS NULL)) ORDER BY {_ORDER} LIMIT ?3 OFFSET ?4)",
        "SELECT page.*, (SELECT title FROM plans WHERE id = latest) AS title FROM page",
        f"ORDER BY {_ORDER}",
    )
)


def casts(
    book: Book,
    *,
    job: str | None = None,
    variant: str | None = None,
    casting: int | None = None,
    waiting: bool = False,
    most: int = -1,
    after: int = 0,
) -> tuple[Cast, ...]:
    """List what was cast, the latest first.

    Parameters
    ----------
    book : Book
        Open.
    job, variant : str, optional
        By this job and variant only.
    casting : int, optional
        Of this number only.
    waiting : bool
        Only what is out of its mold and has no number yet.
    most : int
        So many at the most; all with -1.
    after : int
        So many are passed over.

    Returns
    -------
    tuple of Cast
    """
    return tuple(_cast(row) for row in book.rows(_ASKED, (job, waiting, most, after, variant, casting)))


def _cast(row: sqlite3.Row) -> Cast:
    return Cast(
        job=row["job"],
        variant=row["variant"],
        title=row["title"],
        casting=row["casting"],
        pours=row["pours"],
        begun=read_maybe(row["begun_utc"]),
        last=read_maybe(row["last_utc"]),
        out=read_maybe(row["out_utc"]),
        piece=row["piece"],
    )
