"""A new job of a thing that is measured with a tape."""

from collections.abc import Callable

import pytest

from tests.cli.conftest import Said
from tests.cli.fake_app import FakeApp

Say = Callable[..., Said]


def test_its_height_is_the_second_answer(app: FakeApp, say: Say) -> None:
    assert say("new", "pot", "--shape", "measured", "--size", "14 in", "--yes").status == 0
    shape, unit, answers, _ = app.calls[0][1]
    assert (shape, unit, answers["size"]) == ("measured", None, ["14 in"])
    assert answers["shop_temperature"] == "68 degF"


@pytest.mark.parametrize(
    ("size", "what"),
    [("8 in x 9 in", "a measured thing has one height"), ("0 mm", "a height of 0 mm"), ("360", "360")],
)
def test_a_height_that_cannot_be_is_refused(tmp_path, size: str, what: str) -> None:
    from pourwright.app import new_job
    from pourwright.foundation.errors import UserError

    answers = {"material": "epoxy-slow-deep", "glass": [], "shop_temperature": "20 degC"}
    with pytest.raises(UserError, match=what):
        new_job("measured", None, answers | {"size": size.split(" x ")}, tmp_path / "pot")
    assert not (tmp_path / "pot").exists()
