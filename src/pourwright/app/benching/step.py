"""A step at the bench: what is to be done, what is entered when it is done, and which times go with it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime
from typing import Literal

Ask = Literal["", "mass", "level", "words"]
When = Literal["until", "from", "about"]
STEP = "step"
BENCH = "bench"
"""Where an entry comes from that a phone has sent."""
AS_PLANNED, AS_EXPECTED, TOGETHER = "as planned", "as expected", "A and B together"
BY_WEIGHT = "by weight"
"""Words of a level that nobody looks at, since the weights say what is in."""
PRESSED = (AS_PLANNED, AS_EXPECTED, TOGETHER)
"""With these the words of an entry end whose number one press has entered: nobody has read it."""
GOES_IN = ("weigh_a", "weigh_b", "mixed", "poured")


def bare(text: str) -> str:
    """Take the mark of a press off the words of an entry.

    Parameters
    ----------
    text : str
        Words of an entry.

    Returns
    -------
    str
        The same where they have no such mark.

    Examples
    --------
    >>> bare("batch 1 of 3, as planned"), bare("batch 1 of 3"), bare("as expected")
    ('batch 1 of 3', 'batch 1 of 3', '')
    """
    found = next((mark for mark in PRESSED if text == mark or text.endswith(f", {mark}")), "")
    return text.removesuffix(found).removesuffix(", ") if found else text


@dataclass(frozen=True, kw_only=True)
class Happened:
    """One entry that stands in the log.

    Parameters
    ----------
    pour : int
        Which pour; 0 for the piece as a whole.
    kind : str
        As in the book.
    at : datetime
        When it happened.
    text : str
        Words.
    """

    pour: int
    kind: str
    at: datetime
    text: str = ""


@dataclass(frozen=True, kw_only=True)
class Mark:
    """By which entries a thing is known to have happened.

    Parameters
    ----------
    pour : int
        They belong to it.
    kinds : tuple of str
        Entries of these kinds count.
    words : str
        So do steps whose text begins so.
    count : int
        The so-manyth of them is meant.
    since : Mark, optional
        Only those at or after it count.
    """

    pour: int
    kinds: tuple[str, ...] = ()
    words: str = ""
    count: int = 1
    since: Mark | None = None

    def found(self, happened: Sequence[Happened]) -> Happened | None:
        """Find the entry that is meant.

        Parameters
        ----------
        happened : sequence of Happened
            What stands in the log, in the order in which it happened.

        Returns
        -------
        Happened or None
            None where it has not happened.
        """
        begun = self.since.found(happened) if self.since else None
        if self.since and begun is None:
            return None
        fitting = [one for one in happened if self._fits(one) and (begun is None or one.at >= begun.at)]
        return fitting[self.count - 1] if len(fitting) >= self.count else None

    def _fits(self, one: Happened) -> bool:
        said = bool(self.words) and one.kind == STEP and one.text.startswith(self.words)
        return one.pour == self.pour and (one.kind in self.kinds or said)


@dataclass(frozen=True, kw_only=True)
class Timer:
    """A moment that follows from an entry.

    Parameters
    ----------
    words : str
        What it is, as ``in the mold by``.
    when : str
        Whether it holds ``until`` then, ``from`` then on, or ``about`` then.
    after_s : float
        So long after the entry [s].
    mark : Mark
        The entry.
    """

    words: str
    when: When
    after_s: float
    mark: Mark


@dataclass(frozen=True, kw_only=True)
class Button:
    """What one press enters.

    Parameters
    ----------
    label : str
        On the button.
    kind : str
        Of the entry.
    text : str
        Its words.
    value : float, optional
        In the unit of its kind.
    """

    label: str
    kind: str
    text: str = ""
    value: float | None = None


@dataclass(frozen=True, kw_only=True)
class Step:
    """One step of a pour.

    Parameters
    ----------
    id : str
        Within the plan, as ``2.1.weigh_a``.
    pour : int
        Which pour; 0 for the piece as a whole.
    head : str
        What is to be done, in a few words.
    big : str
        The number that counts, to be read at arm's length.
    lines, cautions : tuple of str
        What else to mind.
    buttons : tuple of Button
        The first is the usual one.
    ask : str
        What may be typed instead: a ``mass``, a ``level``, ``words``, or nothing.
    ask_kind, ask_text : str
        Of an entry with what was typed.
    done : tuple of Mark
        It is done when any of these is found.
    passed : str
        Words of a step that passes it over; empty where it must be done.
    timers : tuple of Timer
        Times that go with it.
    value : float, optional
        As planned, in SI.
    ratio : float, optional
        B to A by weight, where B follows what A really was.
    """

    id: str
    pour: int
    head: str
    done: tuple[Mark, ...]
    big: str = ""
    lines: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    buttons: tuple[Button, ...] = ()
    ask: Ask = ""
    ask_kind: str = ""
    ask_text: str = ""
    passed: str = ""
    timers: tuple[Timer, ...] = field(default=())
    value: float | None = None
    ratio: float | None = None

    def is_done(self, happened: Sequence[Happened]) -> bool:
        """Tell whether it is done, or was passed over.

        Parameters
        ----------
        happened : sequence of Happened
            What stands in the log.

        Returns
        -------
        bool
        """
        over = (Mark(pour=self.pour, words=self.passed),) if self.passed else ()
        return any(mark.found(happened) for mark in (*self.done, *over))


def next_step(steps: Sequence[Step], happened: Sequence[Happened]) -> Step | None:
    """Find what comes next.

    Parameters
    ----------
    steps : sequence of Step
        In their order.
    happened : sequence of Happened
        What stands in the log.

    Returns
    -------
    Step or None
        The first that is not done; pours before the last that something went into are over. None where all
        is done.
    """
    last = max((one.pour for one in happened if one.kind in GOES_IN), default=0)
    left = (step for step in steps if step.pour == 0 or step.pour >= last)
    return next((step for step in left if not step.is_done(happened)), None)
