"""Two at once: neither is shown a lock, nothing is lost or doubled."""

import subprocess
import sys
from pathlib import Path

from pourwright.records import entries_of, open_book
from tests.records.making import beside, first_pour

EACH = 40
_WRITER = """
import sys, time
from datetime import UTC, datetime
from pathlib import Path
from pourwright.records import Entry, Plan, keep_entry, keep_plan, keep_pour, open_book
place, who, each, go = Path(sys.argv[1]), sys.argv[2], int(sys.argv[3]), Path(sys.argv[4])
made = datetime(2026, 11, 28, 9, tzinfo=UTC)
lamp = Plan(id=0, hash="ab" * 32, version="0.1.0", job="lamp", variant="main", title="Table lamp", made=made)
print("ready", flush=True)
while not go.exists():
    time.sleep(0.001)
for number in range(each):
    # opened anew each time, as a request of the page does
    with open_book(place) as book:
        pour = keep_pour(book, keep_plan(book, lamp, "{}").id, 1, begun=made)
        keep_entry(book, Entry(pour_id=pour.id, kind="note", at=made, text=f"{who} {number}", source=who))
"""


def test_two_processes_write_at_once_into_a_book_that_neither_has_made(tmp_path: Path) -> None:
    place, go = tmp_path / "shop" / "book.sqlite", tmp_path / "go"
    place.parent.mkdir()
    command = [sys.executable, "-c", _WRITER, str(place)]
    writers = [
        subprocess.Popen(
            [*command, who, str(EACH), str(go)], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
        )
        for who in ("laptop", "phone")
    ]
    for one in writers:
        assert one.stdout is not None
        one.stdout.readline()
    go.touch()
    ended = [one.communicate(timeout=120) for one in writers]
    assert [one.returncode for one in writers] == [0, 0], ended
    with open_book(place) as book:
        told = [entry.text for entry in entries_of(book, first_pour(book).id)]
    assert sorted(told) == sorted(f"{who} {n}" for who in ("laptop", "phone") for n in range(EACH))
    assert beside(place) == {"book.sqlite"}


def test_two_connections_take_turns(tmp_path: Path) -> None:
    place = tmp_path / "book.sqlite"
    with open_book(place) as one, open_book(place) as other:
        with one.writing():
            pour = first_pour(one)
            # what is not finished is not seen
            assert other.number("SELECT count(*) FROM pours") == 0
        assert first_pour(other) == pour
