from typing import Any

import numpy as np
import pytest

from pourwright.foundation.checks import Range, RangeError, checked
from pourwright.foundation.errors import UserError


@checked(
    depth=Range(0, 5, "m"), density=Range(0, unit="kg/m3", open_low=True), share=Range(0, 1, open_high=True)
)
def head(depth: object, density: float = 1000.0, *, share: float | None = None) -> str:
    """Stand in for a published model."""
    return f"{depth} {density} {share}"


@pytest.mark.parametrize("depth", [0, 5, 2.5, np.array([0.0, 5.0]), np.int64(3)])
def test_inside_passes(depth: object) -> None:
    assert head(depth).endswith("1000.0 None")


@pytest.mark.parametrize(
    ("arguments", "line"),
    [
        ({"depth": 5.01}, "head: depth = 5.01; allowed: 0 to 5 m"),
        ({"depth": -1e-9}, "head: depth = -1e-09; allowed: 0 to 5 m"),
        ({"depth": float("nan")}, "head: depth = nan; allowed: 0 to 5 m"),
        ({"depth": np.array([1.0, 7.0])}, "head: depth = 7; allowed: 0 to 5 m"),
        ({"depth": 1, "density": 0}, "head: density = 0; allowed: above 0 kg/m3"),
        ({"depth": 1, "density": float("inf")}, "head: density = inf; allowed: above 0 kg/m3"),
        ({"depth": 1, "share": 1}, "head: share = 1; allowed: 0 to below 1"),
    ],
)
def test_outside_is_refused_in_one_sentence(arguments: dict[str, Any], line: str) -> None:
    with pytest.raises(RangeError) as refused:
        head(**arguments)
    assert str(refused.value) == line
    assert isinstance(refused.value, UserError)
    assert isinstance(refused.value, ValueError)


def test_declaration_stays_with_the_function() -> None:
    assert set(getattr(head, "__ranges__", ())) == {"depth", "density", "share"}
    assert head.__doc__ == "Stand in for a published model."


def test_a_name_that_is_no_argument_is_a_mistake_of_ours() -> None:
    with pytest.raises(TypeError, match="has no argument hight"):
        checked(hight=Range(0))(head)
