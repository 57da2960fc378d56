"""One test invents a bad value for every declared argument of every function."""

import inspect
import math
from collections.abc import Callable, Iterator

import pytest

from pourwright.foundation.checks import Range, RangeError
from tests.contracts.house import ranged_functions

FUNCTIONS = ranged_functions()
CASES = [(name, argument) for name, each in FUNCTIONS.items() for argument in each.__ranges__]  # type: ignore[attr-defined]


def inside(allowed: Range) -> float:
    """Some number that the range accepts."""
    low = allowed.low if math.isfinite(allowed.low) else min(0.0, allowed.high) - 1
    high = allowed.high if math.isfinite(allowed.high) else max(0.0, low) + 1
    return (low + high) / 2


def outside(allowed: Range) -> Iterator[float]:
    yield from (math.nan, math.inf, -math.inf)
    if math.isfinite(allowed.low):
        yield allowed.low if allowed.open_low else allowed.low - max(1.0, abs(allowed.low)) * 1e-6
    if math.isfinite(allowed.high):
        yield allowed.high if allowed.open_high else allowed.high + max(1.0, abs(allowed.high)) * 1e-6


def good_arguments(function: Callable[..., object], ranges: dict[str, Range]) -> dict[str, object]:
    """Arguments that pass the check; the check comes first, so undeclared ones may be anything."""
    required = [
        name
        for name, each in inspect.signature(function).parameters.items()
        if each.default is each.empty and each.kind not in {each.VAR_POSITIONAL, each.VAR_KEYWORD}
    ]
    return {name: inside(ranges[name]) if name in ranges else None for name in required}


@pytest.mark.parametrize(("name", "argument"), CASES)
def test_a_bad_value_is_refused(name: str, argument: str) -> None:
    function = FUNCTIONS[name]
    ranges: dict[str, Range] = function.__ranges__  # type: ignore[attr-defined]
    for bad in outside(ranges[argument]):
        with pytest.raises(RangeError) as refused:
            function(**good_arguments(function, ranges) | {argument: bad})
        assert argument.replace("_", " ") in refused.value.what
        assert refused.value.allowed


def test_there_is_something_to_test() -> None:
    assert len(CASES) > 50
    assert all(isinstance(each.__ranges__, dict) for each in FUNCTIONS.values())  # type: ignore[attr-defined]
