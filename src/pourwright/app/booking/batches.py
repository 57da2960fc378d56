"""Batches of a pour, by what was entered of them: which entries belong together, and how heavy each was."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from math import fsum, hypot

from pourwright.app.benching.step import BENCH, GOES_IN, bare
from pourwright.pour.leaked.defaults import LEAKED
from pourwright.pour.leaked.weighed import Weighed
from pourwright.records import Entry

AS_PLANNED_DOUBT = 0.03
"""Standard deviation of a mass that nobody read off a scale, as a share of it."""
CLOSE = 0.02
"""Batches account for what was poured of them together when no more than this share is missing."""
_NAME = re.compile(r"\bbatch \d+ of \d+")
_LATER: dict[str, frozenset[str]] = {
    "weigh_a": frozenset({"mixed", "poured"}),
    "weigh_b": frozenset({"mixed", "poured"}),
    "mixed": frozenset({"poured"}),
    "poured": frozenset(),
}


@dataclass(frozen=True)
class Batch:
    """One batch, by what was entered of it.

    Parameters
    ----------
    name : str
        As the bench calls it, ``batch 1 of 3``; empty where nobody said which.
    said : dict
        Entry by its kind: ``weigh_a``, ``weigh_b``, ``mixed``, ``poured``. What was poured from several pails
        together is the same entry in each.
    """

    name: str = ""
    said: dict[str, Entry] = field(default_factory=dict)

    def value(self, kind: str) -> float | None:
        """What was entered of a kind [kg]."""
        return self.said[kind].value if kind in self.said else None

    @property
    def mixed(self) -> Weighed | None:
        """What was mixed [kg]: as it was read, else its parts together, else what one press has entered."""
        whole = self.said.get("mixed")
        if whole is not None and is_measured(whole):
            return weight_of(whole)
        if "weigh_a" in self.said and "weigh_b" in self.said:
            parts = [weight_of(self.said[kind]) for kind in ("weigh_a", "weigh_b")]
            return Weighed(fsum(one.mass for one in parts), hypot(*(one.doubt for one in parts)))
        return None if whole is None else weight_of(whole)

    @property
    def is_measured(self) -> bool:
        """Whether what was mixed was read off a scale."""
        whole = self.said.get("mixed")
        if whole is not None and is_measured(whole):
            return True
        return all(kind in self.said and is_measured(self.said[kind]) for kind in ("weigh_a", "weigh_b"))

    def takes(self, entry: Entry, name: str) -> bool:
        """Whether an entry may belong to it: of this name, or not named and none of its later ones before."""
        if entry.kind in self.said or (name and self.name and name != self.name):
            return False
        return bool(name and self.name) or not _LATER[entry.kind] & set(self.said)


def is_measured(entry: Entry) -> bool:
    """Tell whether the number of an entry was read, and not only agreed to with one press.

    Parameters
    ----------
    entry : Entry
        Of a pour.

    Returns
    -------
    bool
        False for what was entered ``as planned`` or ``as expected``, and for a mix that is but the sum of its
        parts.
    """
    pressed = entry.kind == "mixed" and entry.source == BENCH and entry.replaces is None
    return not pressed and bare(entry.text) == entry.text


def weight_of(entry: Entry) -> Weighed:
    """Give the mass of an entry with its doubt.

    Parameters
    ----------
    entry : Entry
        In kg.

    Returns
    -------
    Weighed
        Its own standard deviation where it has one [kg].
    """
    mass = entry.value or 0.0
    if entry.sd is not None:
        return Weighed(mass, entry.sd)
    return Weighed(mass, weighing(mass) if is_measured(entry) else AS_PLANNED_DOUBT * mass)


def weighing(mass: float) -> float:
    """Standard deviation of a weighed mass [kg]."""
    return max(0.001, LEAKED["weighing_error"].value * abs(mass))


def batches_of(entries: Sequence[Entry]) -> tuple[Batch, ...]:
    """Sort the entries of one pour by their batches.

    Parameters
    ----------
    entries : sequence of Entry
        What stands in the log about the pour.

    Returns
    -------
    tuple of Batch
        In the order in which they were begun. Entries of a batch are known by its name; one that names none
        belongs to the first batch that lacks it and has nothing later. What was poured came from the pail
        that held it with the least left over; where none held so much, from several together.
    """
    batches: list[Batch] = []
    for entry in sorted(entries, key=lambda one: one.at):
        if entry.kind in GOES_IN and entry.value is not None:
            _put(batches, entry)
    return tuple(batches)


def _put(batches: list[Batch], entry: Entry) -> None:
    found = _NAME.search(entry.text)
    name = found.group() if found else ""
    places = list(_places(batches, entry, name))
    if not places:
        # a name that is taken names another batch, which its next entry may call by its own
        taken = any(one.name == name for one in batches)
        batches.append(Batch("" if taken else name, {entry.kind: entry}))
    for place in places:
        old = batches[place]
        batches[place] = Batch(old.name or name, old.said | {entry.kind: entry})


def _places(batches: Sequence[Batch], entry: Entry, name: str) -> list[int]:
    """The batch that an entry belongs to, or those."""
    fitting = [place for place, one in enumerate(batches) if one.takes(entry, name)]
    if name or entry.kind != "poured":
        own = [place for place in fitting if name and batches[place].name == name]
        return (own or fitting)[:1]
    held = {place: one.mass for place in fitting if (one := batches[place].mixed) is not None}
    enough = [place for place, mass in held.items() if (entry.value or 0.0) <= (1.0 + CLOSE) * mass]
    if enough:
        return [min(enough, key=lambda place: held[place])]
    return list(_together(held, entry.value or 0.0)) or fitting[:1]


def _together(held: Mapping[int, float], poured: float) -> Iterator[int]:
    """So many pails, from the first on, as hold what was poured of them at once."""
    there = 0.0
    for place, mass in held.items():
        if there * (1.0 + CLOSE) >= poured:
            return
        yield place
        there += mass
