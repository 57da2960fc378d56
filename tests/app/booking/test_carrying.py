"""Everything out, and back into an empty book; what is damaged is refused whole."""

import csv
import hashlib
import io
import json
import shutil
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings, strategies as st

from pourwright.app.booking.carrying import export_book, import_book
from pourwright.app.booking.csv_tables import csv_lines, read_csv
from pourwright.foundation.errors import ConflictError, NotThereError, TooMuchError, UserError
from pourwright.records import (
    TABLES,
    Book,
    Entry,
    Learned,
    Lot,
    Move,
    Piece,
    Plan,
    columns_of,
    keep_entries,
    keep_learned,
    keep_lot,
    keep_move,
    keep_photo,
    keep_piece,
    keep_plan,
    keep_pour,
    keep_series,
    open_book,
    reserve,
    rows_of,
)

NINE = datetime(2026, 11, 28, 9, 0, tzinfo=UTC)
# whatever a database can hold and a file can be written with
TEXTS = st.text(st.characters(codec="utf-8"), max_size=12) | st.sampled_from(
    ["", '"', "a,b", "x\r\ny", "0", "None"]
)
NUMBERS = st.floats(allow_nan=False, allow_infinity=False)
CELLS = st.none() | TEXTS | NUMBERS | st.integers(-(2**63), 2**63 - 1)
WAYS = ("book.json", "tables")


def fill(book: Book, texts: list[str], numbers: list[float], seed: int) -> None:
    """Put something into every table."""
    plan = keep_plan(
        book,
        Plan(
            id=0, hash=f"{seed:064x}", version="0", job=texts[0], variant=texts[1], title=texts[2], made=NINE
        ),
        json.dumps(texts),
    )
    pour = keep_pour(book, plan.id, 1, begun=NINE)
    photo = keep_photo(book, b"\xff\xd8\xff" + bytes(range(seed % 256)))
    first = Entry(pour_id=pour.id, kind="poured", at=NINE, value=numbers[0], text=texts[3], photo_hash=photo)
    second = Entry(
        pour_id=pour.id, kind="poured", at=NINE, value=numbers[1], sd=abs(numbers[2]), replaces=first.id
    )
    keep_entries(book, [first, second])
    readings = [(NINE + timedelta(minutes=each), value) for each, value in enumerate(numbers)]
    keep_series(book, pour.id, texts[4], "cd" * 32, readings, place=texts[5])
    lot = keep_lot(book, Lot(kind="glass", material="", name=texts[3], left=abs(numbers[1]), opened=NINE))
    keep_move(book, Move(lot_id=lot.id, change=numbers[2], why="used", plan_id=plan.id, pour_id=pour.id))
    keep_piece(book, Piece(title=texts[2], plan_id=plan.id, finished=NINE, photo_hash=photo, note=texts[5]))
    learned = {"prior_mean": numbers[0], "prior_sd": abs(numbers[1]), "mean": numbers[2], "sd": 1.0}
    keep_learned(book, Learned(quantity="void_fraction", subject=texts[4], records=seed % 7, **learned))
    reserve(book, plan.id, 1)


def everything(place: Path) -> dict[str, list]:
    with open_book(place, make=False) as book, book.reading():
        return {table: [columns_of(book, table), *rows_of(book, table)] for table in TABLES}


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    (tmp_path / "shop").mkdir()
    with open_book(tmp_path / "shop" / "book.sqlite") as book, book.writing():
        for seed in (3, 4):
            fill(book, ["lamp", "main", "Lamp", "a, b", "", 'say "x"'], [2.5, 0.1, 7.0], seed)
    return tmp_path / "shop"


@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    texts=st.lists(TEXTS, min_size=6, max_size=6),
    numbers=st.lists(NUMBERS, min_size=3, max_size=3),
    seed=st.integers(1, 1000),
)
def test_everything_comes_back_as_it_was(
    tmp_path_factory: pytest.TempPathFactory, texts: list[str], numbers: list[float], seed: int
) -> None:
    folder = tmp_path_factory.mktemp("shops")
    for name in ("here", "there", "elsewhere"):
        (folder / name).mkdir()
    with open_book(folder / "here" / "book.sqlite") as book, book.writing():
        fill(book, texts, numbers, seed)
    before = everything(folder / "here" / "book.sqlite")
    assert all(len(rows) > 1 for rows in before.values())
    for name, way in zip(("there", "elsewhere"), WAYS, strict=True):
        written = export_book(folder / "here", folder / way)
        assert import_book(folder / name, folder / way) == written
        assert everything(folder / name / "book.sqlite") == before


@settings(max_examples=100, deadline=None)
@given(rows=st.lists(st.lists(CELLS, min_size=2, max_size=2), max_size=5))
def test_tables_are_csv_as_others_read_it(rows: list[list]) -> None:
    text = "".join(csv_lines(["a", "b"], rows))
    # Python's own reader, strict, is the judge; it does not tell nothing from an empty text
    read = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    assert read == [["a", "b"], *([_bare(cell) for cell in row] for row in rows)]
    ours = list(read_csv(text, "x.csv", 99))[1:]
    assert ours == [[None if cell is None else _bare(cell) for cell in row] for row in rows]


def _bare(cell: object) -> str:
    return "" if cell is None else cell if isinstance(cell, str) else repr(cell)


def test_a_table_may_come_with_bare_line_ends_and_without_the_last() -> None:
    assert list(read_csv('a,b\n1,"x\ny"\n2,', "x.csv", 9)) == [["a", "b"], ["1", "x\ny"], ["2", None]]


@pytest.mark.parametrize(
    ("text", "told"),
    [('"a', "not closed"), ('"a"b', "stands after"), ('a"b', "stands after"), ("a\rb", "stands")],
)
def test_what_is_no_csv_is_refused(text: str, told: str) -> None:
    with pytest.raises(UserError, match=told):
        list(read_csv(text, "x.csv", 9))


def test_a_table_of_too_many_rows_is_refused(shop: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(TooMuchError, match="more than 3 rows"):
        list(read_csv("a\n" * 9, "x.csv", 3))
    export_book(shop, shop.parent / "tables")
    monkeypatch.setattr("pourwright.app.booking.carrying.MOST_ROWS", 1)
    refused(shop.parent, shop.parent / "tables", "more than 1 rows")


def refused(folder: Path, source: Path, told: str, **more: bool) -> None:
    """An import that is refused leaves no book behind."""
    goal = folder / "goal"
    goal.mkdir(exist_ok=True)
    with pytest.raises(UserError, match=told):
        import_book(goal, source, **more)
    assert list(goal.iterdir()) == []


@pytest.mark.parametrize("way", WAYS)
def test_a_byte_that_changed_anywhere_is_refused_whole(way: str, shop: Path) -> None:
    source = shop.parent / way
    export_book(shop, source)
    files = [source] if source.is_file() else sorted(one for one in source.rglob("*") if one.is_file())
    for file in files:
        if file.name == "book.json" and file != source:
            continue
        whole = file.read_bytes()
        for place in {len(whole) // 3, len(whole) // 2, len(whole) - 2}:
            other = whole[:place] + bytes([whole[place] ^ 1]) + whole[place + 1 :]
            file.write_bytes(other)
            refused(shop.parent, source, "damaged|UTF-8|missing|no book|newer")
        file.write_bytes(whole[: len(whole) // 2])
        refused(shop.parent, source, "damaged|UTF-8|missing|no book|newer")
        file.write_bytes(whole)


def test_a_missing_file_is_refused(shop: Path) -> None:
    export_book(shop, shop.parent / "tables")
    (shop.parent / "tables" / "entries.csv").unlink()
    refused(shop.parent, shop.parent / "tables", "'entries.csv' is missing")
    refused(shop.parent, shop.parent / "nowhere", "nothing can be read there")


def edit(source: Path, change: Callable[[str], str], table: str) -> None:
    file = source / f"{table}.csv"
    file.write_text(change(file.read_bytes().decode()), "utf8", newline="")


@pytest.mark.parametrize(
    ("table", "change", "told"),
    [
        ("entries", lambda text: text.replace("2.5", "two"), "no number"),
        ("entries", lambda text: text.replace("poured", "guessed"), "kind cannot be 'guessed'"),
        ("pours", lambda text: text.replace("1,1,1,1,", "1,99,1,1,"), "not there|does not fit"),
        ("pours", lambda text: text.replace("plan_id", "plan"), "no column 'plan'"),
        ("pours", lambda text: text.replace("plan_id", "number"), "twice"),
        ("lots", lambda text: text.replace("glass", "gold"), "kind cannot be 'gold'"),
        ("lots", lambda text: text.replace('""', '"a later word"', 1), ""),
        ("plans", lambda text: text + "1,2\r\n", "2 fields where 8 belong"),
        ("plans", lambda text: text.replace("2026-11-28T09", "28.11.2026 09"), "does not fit"),
    ],
)
def test_what_was_edited_is_refused_unless_it_is_said_and_fits(
    table: str, change: Callable[[str], str], told: str, shop: Path
) -> None:
    source = shop.parent / "tables"
    export_book(shop, source)
    edit(source, change, table)
    refused(shop.parent, source, "changed or damaged")
    if told:
        refused(shop.parent, source, told, edited=True)
    else:
        (shop.parent / "goal").mkdir(exist_ok=True)
        import_book(shop.parent / "goal", source, edited=True)


def test_a_manifest_cannot_point_out_of_its_folder(shop: Path) -> None:
    source = shop.parent / "tables"
    export_book(shop, source)
    (shop.parent / "secret.csv").write_text("x")
    manifest = json.loads((source / "book.json").read_text())
    manifest["sha256"]["../secret.csv"] = hashlib.sha256(b"x").hexdigest()
    (source / "book.json").write_text(json.dumps(manifest))
    refused(shop.parent, source, "is missing")


def test_a_book_that_holds_something_takes_nothing_in(shop: Path) -> None:
    source = shop.parent / "book.json"
    export_book(shop, source)
    before = everything(shop / "book.sqlite")
    with pytest.raises(ConflictError, match="holds something already"):
        import_book(shop, source)
    assert everything(shop / "book.sqlite") == before


@pytest.mark.parametrize(
    ("content", "told"),
    [
        ("{", "cut short or damaged"),
        ("[]", "this is no book"),
        ('{"schema": "pourwright-plan/1.6"}', "this is no book"),
        ('{"schema": "pourwright-book/2.0"}', "newer than this program"),
        ('{"schema": "pourwright-book/1.0", "version": 99}', "written by a newer pourwright"),
        ('{"schema": "pourwright-book/1.0", "version": 1, "tables": {"plans": []}}', "no book in JSON"),
        ('{"schema": "pourwright-book/1.0", "version": 1, "tables": {}}', "changed or damaged"),
        ("[" * 100_000, "cut short or damaged"),
    ],
)
def test_what_is_no_book_in_json_is_refused(content: str, told: str, tmp_path: Path) -> None:
    (tmp_path / "x.json").write_text(content)
    refused(tmp_path, tmp_path / "x.json", told)


def test_an_earlier_version_comes_in_without_what_it_did_not_have(shop: Path) -> None:
    source = shop.parent / "tables"
    export_book(shop, source)
    manifest = json.loads((source / "book.json").read_text())
    manifest["version"] = 2
    del manifest["sha256"]["reservations.csv"]
    (source / "book.json").write_text(json.dumps(manifest))
    (source / "reservations.csv").unlink()
    (shop.parent / "goal").mkdir()
    assert "reservations" not in import_book(shop.parent / "goal", source)


def test_an_export_does_not_write_over_other_things(shop: Path) -> None:
    (shop.parent / "tables").mkdir()
    (shop.parent / "tables" / "letter.txt").write_text("mine")
    with pytest.raises(UserError, match="holds other things"):
        export_book(shop, shop.parent / "tables")
    shutil.rmtree(shop.parent / "tables")
    export_book(shop, shop.parent / "tables")
    export_book(shop, shop.parent / "tables")
    (shop.parent / "empty").mkdir()
    with pytest.raises(NotThereError, match="no book here yet"):
        export_book(shop.parent / "empty", shop.parent / "x.json")
