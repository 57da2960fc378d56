"""How far the volume of a body measured by tape may lie off, and which reading would help most."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import hypot, sqrt

import numpy as np

from pourwright.app.shaping.tape_defaults import TAPE
from pourwright.app.shaping.tape_rows import FLAT, TapeRow
from pourwright.geometry.mesh import Floats
from pourwright.geometry.taped.between import ORDER, Wander, span_doubts
from pourwright.geometry.taped.girths import area_missing_in_an_oval
from pourwright.geometry.taped.measured import MeasuredBody

ONE_IN_TEN = 1.2815515655446004
WORTH = 0.8
"""One more reading is told where it leaves no more than this share of the doubt."""

"""Standard deviations that nine in ten of a normal distribution stay below."""


@dataclass(frozen=True, slots=True)
class Part:
    """One cause of doubt.

    Parameters
    ----------
    cause : str
        "between", "closing", "reading", "tape" or "section".
    deviation : float
        Standard deviation of the volume [m3].
    shift : float
        How much less there is in the mean, negative [m3].
    """

    cause: str
    deviation: float
    shift: float = 0.0


@dataclass(frozen=True, slots=True)
class NextReading:
    """The reading that would take away most of the doubt.

    Parameters
    ----------
    height : float
        Where [m].
    deviation : float
        Standard deviation of the volume with it [m3].
    """

    height: float
    deviation: float


@dataclass(frozen=True, slots=True)
class TapeDoubt:
    """How far a body measured by tape may lie off.

    Parameters
    ----------
    volume : float
        Of the body as it was laid through the readings [m3].
    parts : tuple of Part
        Largest first.
    following : NextReading
        What one more reading would gain most.
    spread : float
        How far a level half-way up may lie off, one in ten above and one in ten below [m].
    middle : float
        That level [m].
    """

    volume: float
    parts: tuple[Part, ...]
    following: NextReading
    spread: float
    middle: float

    @property
    def deviation(self) -> float:
        """Standard deviation of the volume [m3]."""
        return sqrt(sum(part.deviation**2 for part in self.parts))

    @property
    def gains(self) -> bool:
        """Whether one more reading is worth taking."""
        return self.following.deviation < WORTH * self.deviation

    @property
    def band(self) -> tuple[float, float]:
        """Volume that one in ten and nine in ten such bodies stay below [m3]."""
        likely = self.volume + sum(part.shift for part in self.parts)
        off = ONE_IN_TEN * self.deviation
        return max(likely - off, 0.0), likely + off


def tape_doubt(rows: Sequence[TapeRow], body: MeasuredBody, volume: float, reading: float) -> TapeDoubt:
    """Say how far a body measured by tape may lie off.

    Parameters
    ----------
    rows : sequence of TapeRow
        The readings.
    body : MeasuredBody
        Laid through them.
    volume : float
        Of its mesh [m3].
    reading : float
        How well the tape was read, two standard deviations [m].

    Returns
    -------
    TapeDoubt
    """
    deviation = reading / 2
    spans = spans_of(rows, body, deviation)
    ends = np.array(_closing(rows, ("dome", "point", FLAT)))
    between, closing = np.where(ends, 0.0, spans), np.where(ends, spans, 0.0)
    single = _readings(rows, body, deviation)
    parts = [
        Part("between", _together(between)),
        Part("closing", _together(closing)),
        Part("reading", _together(single)),
        Part("tape", 2 * TAPE["tape"].value * volume),
        _section(rows, body, volume),
    ]
    alike = hypot(parts[3].deviation, parts[4].deviation) / volume
    middle, spread = _level(body, spans, single, alike)
    shown = tuple(sorted((part for part in parts if part.deviation > 0), key=lambda part: -part.deviation))
    return TapeDoubt(volume, shown, _following(rows, body, spans, shown), spread, middle)


def spans_of(rows: Sequence[TapeRow], body: MeasuredBody, deviation: float) -> Floats:
    """Standard deviation of what each span holds, the closing ends among them.

    Parameters
    ----------
    rows : sequence of TapeRow
        The readings.
    body : MeasuredBody
        Laid through them.
    deviation : float
        Of one reading [m].

    Returns
    -------
    array (n - 1,)
        [m3]
    """
    held = (body.areas[1:] + body.areas[:-1]) / 2 * np.diff(body.heights)
    straight = np.array(_closing(rows, (FLAT,)))
    spans = np.where(straight, TAPE["straight"].value * held, 0.0)
    spans[~straight] = _between(rows, body, deviation)
    # a dome may hold anything between a cone and a cylinder
    blunt = TAPE["closing"].value * 2 * held * np.array(_closing(rows))
    return np.asarray(np.hypot(spans, blunt))


def _between(rows: Sequence[TapeRow], body: MeasuredBody, deviation: float) -> Floats:
    """Doubt of the spans between what is known; a straight end only repeats its neighbour."""
    known = [number for number, row in enumerate(rows) if row.closes != FLAT]
    heights, areas = body.heights[known], body.areas[known]
    if len(known) == 2:
        return np.asarray(TAPE["untold"].value * (areas[:-1] + areas[1:]) / 2 * np.diff(heights))
    if len(known) < 2:
        return np.zeros(0)
    noise = np.array([rows[number].sensitivity() * deviation for number in known])
    wander = Wander(*(TAPE[key].value for key in ("wander", "usual_wander", "usual_weight")))
    return span_doubts(heights, areas, noise, wander)


def _closing(rows: Sequence[TapeRow], how: Sequence[str] = ("dome", "point")) -> list[bool]:
    """Whether each span ends where nothing was measured, in one of some ways."""
    return [low.closes in how or high.closes in how for low, high in pairwise(rows)]


def in_charge(rows: Sequence[TapeRow]) -> list[int]:
    """Say which reading speaks for each row: at a straight end the one beside it.

    Parameters
    ----------
    rows : sequence of TapeRow
        The readings.

    Returns
    -------
    list of int
        Its number, for each row.
    """
    numbers = list(range(len(rows)))
    for end, near in ((0, 1), (-1, len(rows) - 2)):
        numbers[end] = near if rows[end].closes == FLAT else numbers[end]
    return numbers


def _together(deviations: Floats) -> float:
    return float(np.sqrt(np.sum(deviations**2)))


def _readings(rows: Sequence[TapeRow], body: MeasuredBody, deviation: float) -> Floats:
    """Standard deviation of the volume from each reading alone, its height among them."""
    spans, areas = np.diff(body.heights), body.areas
    share = (np.append(spans, 0.0) + np.append(0.0, spans)) / 2
    shares = np.zeros(len(rows))
    np.add.at(shares, in_charge(rows), share)
    wrong = np.array([row.sensitivity() * deviation for row in rows]) * shares
    # what moves with a reading's height: the span below it grows as the one above it shrinks
    means = (areas[1:] + areas[:-1]) / 2
    placed = np.abs(np.append(means, 0.0) - np.append(0.0, means)) * deviation
    return np.asarray(np.hypot(wrong, placed))


def _section(rows: Sequence[TapeRow], body: MeasuredBody, volume: float) -> Part:
    """Sections that are not what they were taken for, alike all the way up."""
    spans, areas = np.diff(body.heights), body.areas
    held = (np.append(spans, 0.0) + np.append(0.0, spans)) / 2 * areas
    held = held / held.sum()
    off = [_off(rows[number]) for number in in_charge(rows)]
    deviation = sum(share * each for share, (each, _) in zip(held, off, strict=True))
    shift = sum(share * each for share, (_, each) in zip(held, off, strict=True))
    return Part("section", float(deviation) * volume, -float(shift) * volume)


def _off(row: TapeRow) -> tuple[float, float]:
    """Standard deviation and mean lack of a section's area, as shares of it."""
    uneven, lacking = TAPE["oval"].value / 2, TAPE["lacking"].value
    if row.closes is not None:
        return 0.0, 0.0
    if row.diameter is not None:
        # one diameter of an oval, in any direction: first order
        return hypot(sqrt(2) * uneven, TAPE["fullness"].value), 0.0
    if row.girth is not None and row.width is None:
        missing = area_missing_in_an_oval(uneven)
        return hypot(sqrt(2) * missing, lacking), missing
    # a girth beside the width takes most of the guess out of a section's fullness
    return (lacking if row.girth is not None else TAPE["fullness"].value), 0.0


def _level(body: MeasuredBody, spans: Floats, single: Floats, alike: float) -> tuple[float, float]:
    """The reading nearest to half the volume, and how far a level there may lie off."""
    heights, areas = body.heights, body.areas
    below = np.append(0.0, np.cumsum((areas[1:] + areas[:-1]) / 2 * np.diff(heights)))
    inner = [i for i in range(len(heights)) if areas[i] > 0]
    near = min(inner, key=lambda i: abs(below[i] - below[-1] / 2))
    off = np.sqrt(np.sum(spans[:near] ** 2) + np.sum(single[: near + 1] ** 2) + (alike * below[near]) ** 2)
    return float(heights[near]), float(ONE_IN_TEN * off / areas[near])


def _following(
    rows: Sequence[TapeRow], body: MeasuredBody, spans: Floats, parts: Sequence[Part]
) -> NextReading:
    """Half the span that is least sure."""
    worst = int(np.argmax(spans))
    low, high = body.heights[worst], body.heights[worst + 1]
    closing = _closing(rows)[worst]
    # of a dome most lies near its foot: half of it, three quarters as wide
    left = 0.375 if closing else sqrt(2) * 0.5 ** (ORDER + 1)
    square = sum(part.deviation**2 for part in parts) - spans[worst] ** 2 * (1 - left**2)
    return NextReading(float((low + high) / 2), sqrt(square))


def causes(parts: Sequence[Part]) -> Iterator[str]:
    """Name the causes that matter: those of half the largest or more.

    Parameters
    ----------
    parts : sequence of Part
        Largest first.

    Yields
    ------
    str
        In the maker's words.
    """
    for part in parts:
        if part.deviation >= parts[0].deviation / 2:
            yield WORDS[part.cause]


WORDS = {
    "between": "what the body does between the readings",
    "closing": "how it closes at its end",
    "reading": "how well the tape was read",
    "tape": "the tape itself",
    "section": "whether its sections are as round, oval or square as they were taken for",
}
