"""A book with something in it: an invented lamp."""

from datetime import UTC, datetime
from pathlib import Path

from pourwright.records import Book, Entry, Plan, Pour, keep_plan, keep_pour

NINE = datetime(2026, 11, 28, 9, 0, tzinfo=UTC)
LAMP = Plan(id=0, hash="ab" * 32, version="0.1.0", job="lamp", variant="main", title="Table lamp", made=NINE)
PHOTO = bytes.fromhex("ffd8ffe000104a4649460001") + b"an invented photo"


def first_pour(book: Book) -> Pour:
    """The first pour of the lamp."""
    plan = keep_plan(book, LAMP, '{"schema":"pourwright-plan/1.6"}')
    return keep_pour(book, plan.id, 1, begun=NINE)


def poured(pour: Pour, kilograms: float, **more: object) -> Entry:
    """So much went in at nine."""
    said = {"pour_id": pour.id, "kind": "poured", "at": NINE, "value": kilograms} | more
    return Entry(**said)  # type: ignore[arg-type]


def beside(path: Path) -> set[str]:
    """Names of the files around a book."""
    return {one.name for one in path.parent.iterdir()}
