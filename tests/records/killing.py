"""Writing sessions that are killed at random moments: ``python killing.py FOLDER KILLS SEED``.

Each session confirms an entry by one line once `keep_entry` has returned. After each kill the book is opened,
and every entry that was ever confirmed must be in it. Prints how many sessions, kills while a session was at
work, and confirmed entries there were; ends with status 1 at the first entry that is missing.
"""

import os
import random
import select
import signal
import sys
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path

from pourwright.records import Entry, Plan, keep_entry, keep_photo, keep_plan, keep_pour, open_book

NINE = datetime(2026, 11, 28, 9, 0, tzinfo=UTC)
ID = 37
"""Letters of a confirmation."""


def session(place: Path, told: int, seed: int) -> None:
    """Write until killed."""
    dice = random.Random(seed)
    with open_book(place) as book:
        plan = keep_plan(
            book,
            Plan(id=0, hash="ab" * 32, version="0", job="lamp", variant="main", title="Lamp", made=NINE),
            "{}",
        )
        pour = keep_pour(book, plan.id, 1, begun=NINE)
        for number in range(10_000):
            with book.writing():
                photo = None
                if dice.random() < 0.2:
                    photo = keep_photo(book, b"\xff\xd8\xff" + dice.randbytes(30_000))
                at = NINE + timedelta(seconds=number)
                entry = Entry(pour_id=pour.id, kind="poured", at=at, value=number / 10, photo_hash=photo)
                keep_entry(book, entry)
            os.write(told, f"{entry.id}\n".encode())


def begin(place: Path, seed: int) -> tuple[int, int]:
    """Start a session in a process of its own; its number and where it confirms."""
    listening, told = os.pipe()
    child = os.fork()
    if child:
        os.close(told)
        return child, listening
    os.close(listening)
    session(place, told, seed)
    os._exit(0)


def rest(listening: int) -> str:
    """Everything that was confirmed."""
    said = b""
    while more := os.read(listening, 65536):
        said += more
    os.close(listening)
    return said.decode()


def main(folder: Path, kills: int, seed: int) -> int:
    """Kill so many sessions."""
    dice = random.Random(seed)
    confirmed: set[str] = set()
    place, at_work, total = folder / "book.sqlite", 0, 0
    for number in range(kills):
        if number % 50 == 0:
            # a book that is only being made is killed too
            place, confirmed = folder / f"book-{number}.sqlite", set()
        child, listening = begin(place, dice.getrandbits(30))
        if number % 10:
            select.select([listening], [], [], 10)
        time.sleep(dice.uniform(0, 0.03))
        os.kill(child, signal.SIGKILL)
        at_work += os.WTERMSIG(os.waitpid(child, 0)[1]) == signal.SIGKILL
        told = {line for line in rest(listening).splitlines() if len(line) == ID - 1}
        confirmed |= told
        total += len(told)
        with open_book(place) as book:
            kept = {row[0] for row in book.rows("SELECT id FROM entries")}
            sound = book.row("PRAGMA quick_check")[0] if number % 10 == 9 else "ok"
        if confirmed - kept or sound != "ok":
            sys.stdout.write(
                f"after kill {number}: lost {len(confirmed - kept)} of {len(confirmed)}; {sound}\n"
            )
            return 1
    sys.stdout.write(f"{kills} {at_work} {total}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])))
