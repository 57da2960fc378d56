"""What a job file was before: every state of its text, in a file beside it that only grows."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from pourwright.foundation.files import write_atomically

NAME = "history.jsonl"
MOST, SPARE = 200, 50
"""States that are kept, and how many more may gather before the oldest go."""
MOST_LETTERS = 20_000_000


@dataclass(frozen=True)
class State:
    """One text of the job file.

    Parameters
    ----------
    number : int
        Counts up.
    when : str
        UTC, ISO 8601.
    what : str
        What led to it, in words.
    text : str
        The whole file.
    """

    number: int
    when: str
    what: str
    text: str


@dataclass
class History:
    """States of a job file in their order, and which of them is the present one.

    Parameters
    ----------
    file : Path
        Where it is kept.
    states : list of State
        The oldest first.
    at : int
        Place of the present one.
    moves : int
        Lines of the file that hold no state.
    """

    file: Path
    states: list[State] = field(default_factory=list)
    at: int = -1
    moves: int = 0

    @property
    def now(self) -> State | None:
        """The present state."""
        return self.states[self.at] if self.states else None

    @property
    def undone(self) -> State | None:
        """The state that undo would take back."""
        return self.states[self.at] if self.at > 0 else None

    @property
    def next(self) -> State | None:
        """The state that redo would bring back."""
        return self.states[self.at + 1] if self.at + 1 < len(self.states) else None

    def record(self, text: str, what: str) -> None:
        """Add a state after the present one; what was undone before stays within reach of undo."""
        left = self.states[-1] if self.next else None
        if left is not None and self.now is not None:
            self._add(self.now.text, f"back to before {self.states[self.at + 1].what}")
        self._add(text, what)
        self._trim()

    def step(self, by: int) -> State:
        """Go back (-1) or forward (1)."""
        self.at += by
        self.moves += 1
        self._append({"at": self.states[self.at].number})
        return self.states[self.at]

    def meet(self, text: str, what: str) -> bool:
        """Take in what is on disk; a text that is not the present state becomes one of its own."""
        for near in (0, 1, -1):
            place = self.at + near
            if self.states and 0 <= place < len(self.states) and self.states[place].text == text:
                if near:
                    self.step(near)
                return False
        self.record(text, what)
        return True

    def last_that(self, holds: Any) -> State | None:
        """Find the latest state up to the present one whose text holds something."""
        return next((state for state in reversed(self.states[: self.at + 1]) if holds(state.text)), None)

    def _add(self, text: str, what: str) -> None:
        number = self.states[-1].number + 1 if self.states else 1
        state = State(number, datetime.now(UTC).isoformat(timespec="seconds"), what, text)
        self.states.append(state)
        self.at = len(self.states) - 1
        self._append(_line(state))

    def _append(self, line: dict[str, Any]) -> None:
        with self.file.open("a+b") as file:
            # a line torn by a crash is closed, so that the next one stands alone
            file.seek(0, os.SEEK_END)
            if file.tell():
                file.seek(-1, os.SEEK_END)
                torn = file.read(1) != b"\n"
                file.write(b"\n" if torn else b"")
            file.write(json.dumps(line, ensure_ascii=False).encode() + b"\n")
            file.flush()
            os.fsync(file.fileno())

    def _trim(self) -> None:
        letters = sum(len(state.text) for state in self.states)
        if len(self.states) <= MOST + SPARE and self.moves < 10 * MOST and letters <= MOST_LETTERS:
            return
        kept = self.states[-MOST:]
        while len(kept) > 1 and sum(len(state.text) for state in kept) > MOST_LETTERS // 2:
            kept.pop(0)
        self.states, self.at, self.moves = kept, len(kept) - 1, 0
        lines = [json.dumps(_line(state), ensure_ascii=False) + "\n" for state in kept]
        write_atomically(self.file, "".join(lines))


def read_history(folder: Path) -> History:
    """Read what a job file was before.

    Parameters
    ----------
    folder : Path
        Of the job.

    Returns
    -------
    History
        Empty where nothing is kept yet; lines that a crash has torn are passed over.
    """
    history = History(folder / NAME)
    for line in _lines(history.file):
        if "at" in line:
            history.moves += 1
            with suppress(StopIteration):
                history.at = next(i for i, each in enumerate(history.states) if each.number == line["at"])
        else:
            with suppress(KeyError, TypeError):
                history.states.append(State(line["number"], line["when"], line["what"], line["text"]))
                history.at = len(history.states) - 1
    return history


def _line(state: State) -> dict[str, Any]:
    return {"number": state.number, "when": state.when, "what": state.what, "text": state.text}


def _lines(file: Path) -> Iterator[dict[str, Any]]:
    try:
        whole = file.read_bytes()
    except OSError:
        return
    for raw in whole.splitlines():
        with suppress(ValueError):
            line = json.loads(raw)
            if isinstance(line, dict):
                yield line
