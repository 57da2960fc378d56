"""Argument ranges declared beside a function, checked by one engine, refused in one sentence."""

import functools
import inspect
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import ParamSpec, TypeVar

import numpy as np

from pourwright.foundation.errors import UserError

P = ParamSpec("P")
R = TypeVar("R")


class RangeError(UserError, ValueError):
    """An argument lies outside what the function is valid for."""


@dataclass(frozen=True, slots=True)
class Range:
    """Closed interval of allowed values; an open end is said so.

    Parameters
    ----------
    low, high : float
        The ends; infinite where there is none.
    unit : str
        For the sentence only.
    open_low, open_high : bool
        Whether the end itself is refused.

    Examples
    --------
    >>> print(Range(0, 5, "m"))
    0 to 5 m
    >>> print(Range(0, unit="K", open_low=True))
    above 0 K
    """

    low: float = -np.inf
    high: float = np.inf
    unit: str = ""
    open_low: bool = False
    open_high: bool = False

    def accepts(self, value: object) -> bool:
        """Say whether every number in value is finite and inside.

        Parameters
        ----------
        value : float or array
            What came; None is an argument left out and is accepted.

        Returns
        -------
        bool
        """
        if value is None:
            return True
        numbers = np.asarray(value, dtype=float)
        above = numbers > self.low if self.open_low else numbers >= self.low
        below = numbers < self.high if self.open_high else numbers <= self.high
        return bool(np.all(np.isfinite(numbers) & above & below))

    def __str__(self) -> str:
        low, high = np.isfinite(self.low), np.isfinite(self.high)
        from_, to = f"{self.low:g}", f"{self.high:g}"
        if low and high:
            words = f"{'above ' if self.open_low else ''}{from_} to {'below ' if self.open_high else ''}{to}"
        elif low:
            words = f"above {from_}" if self.open_low else f"{from_} or more"
        elif high:
            words = f"below {to}" if self.open_high else f"{to} or less"
        else:
            words = "a finite number"
        return f"{words} {self.unit}".rstrip()


def _worst(value: object, allowed: Range) -> str:
    for number in np.asarray(value, dtype=float).ravel():
        if not allowed.accepts(number):
            return f"{number:g}"
    return str(value)


def _refuse_outside(
    function: Callable[..., object], arguments: Mapping[str, object], ranges: Mapping[str, Range]
) -> None:
    for name, allowed in ranges.items():
        value = arguments.get(name)
        if allowed.accepts(value):
            continue
        what = f"{function.__name__}: {name.replace('_', ' ')} = {_worst(value, allowed)}"
        raise RangeError(what, allowed=str(allowed))


def checked(**ranges: Range) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """Declare which values a function's arguments may take.

    Parameters
    ----------
    **ranges : Range
        Allowed range by argument name; arrays are checked element by element.

    Returns
    -------
    Callable
        A decorator; the function it returns keeps the declaration in ``__ranges__``.

    Raises
    ------
    TypeError
        When a declared name is no argument of the function.

    Examples
    --------
    >>> @checked(depth=Range(0, 5, "m"))
    ... def head(depth: float) -> float:
    ...     return 9.80665 * 1000 * depth
    >>> head(7.0)
    Traceback (most recent call last):
    pourwright.foundation.checks.RangeError: head: depth = 7; allowed: 0 to 5 m
    """

    def decorate(function: Callable[P, R]) -> Callable[P, R]:
        signature = inspect.signature(function)
        if unknown := set(ranges) - set(signature.parameters):
            message = f"{function.__name__} has no argument {', '.join(sorted(unknown))}"
            raise TypeError(message)

        @functools.wraps(function)
        def guarded(*args: P.args, **kwargs: P.kwargs) -> R:
            _refuse_outside(function, signature.bind(*args, **kwargs).arguments, ranges)
            return function(*args, **kwargs)

        guarded.__ranges__ = ranges  # type: ignore[attr-defined]  # functions carry attributes
        return guarded

    return decorate
