"""The way of a piece through the shop: what is got ready, cast in the mold, and finished."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Step:
    """Work at the mold that has to be done at its time.

    Parameters
    ----------
    name : str
        What it is.
    hours : float
        Of one person [h].
    gap : float
        Since the beginning of the step before it, at least [h].
    until : float or None
        Since then, at most [h]: the pour before bonds no longer. None where it may wait.
    """

    name: str
    hours: float
    gap: float = 0.0
    until: float | None = None


@dataclass(frozen=True)
class Route:
    """What a piece needs.

    Parameters
    ----------
    name : str
        Of the product.
    steps : tuple of Step
        Pours in their order, then taking out, which is the last one.
    before : float
        Work before the first pour that may be spread over days: washing, crushing [h].
    dries : float
        After that, before the first pour [h].
    finishing : float
        Work on a piece that is out of its mold; it may be spread over days [h].
    rest : float
        Of the mold, after each casting [h].
    molds : int
        How many there are.
    scrap : float
        Share of castings that give no good piece, below 1.
    demold_spread : float
        Relative deviation of the time until it may leave the mold.
    by_step : mapping of str to float
        Hours of a person for one casting or piece, by step, for the reader [h].
    """

    name: str
    steps: tuple[Step, ...]
    before: float = 0.0
    dries: float = 0.0
    finishing: float = 0.0
    rest: float = 0.0
    molds: int = 1
    scrap: float = 0.0
    demold_spread: float = 0.0
    by_step: dict[str, float] = field(default_factory=dict)

    @property
    def casting(self) -> float:
        """Work of a person for one casting, finishing left out [h]."""
        return self.before + sum(step.hours for step in self.steps)

    @property
    def work(self) -> float:
        """Work of a person for one good piece, failed castings in it [h]."""
        return self.casting / (1.0 - self.scrap) + self.finishing


def fitting(steps: tuple[Step, ...], longest: float) -> tuple[Step, ...]:
    """Cut steps that are longer than half a day into parts, one after another.

    Parameters
    ----------
    steps : tuple of Step
        As they are.
    longest : float
        Working time of half a day [h].

    Returns
    -------
    tuple of Step
        The same work.

    Examples
    --------
    >>> [(step.hours, step.gap) for step in fitting((Step("lay", 6.0), Step("pour", 1.0, 24.0, 30.0)), 5.0)]
    [(5.0, 0.0), (1.0, 5.0), (1.0, 19.0)]
    """
    parts: list[Step] = []
    back = 0.0
    for step in steps:
        until = None if step.until is None else step.until - back
        parts.append(Step(step.name, min(step.hours, longest), max(step.gap - back, 0.0), until))
        back, rest = 0.0, step.hours - longest
        while rest > 1e-9:
            back += longest
            parts.append(Step(step.name, min(rest, longest), longest))
            rest -= longest
    return tuple(parts)
