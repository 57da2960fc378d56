"""A file of ticks that this program did not write, or not whole, is refused and stays as it is."""

import json

import pytest

from pourwright.app.ticking.kept import TICKS, Ticked, change_ticks, ticked_of
from pourwright.foundation.errors import UserError

TICK = {"length_m": 0.3, "width_m": 0.2, "thickness_m": 0.018, "board": "mdf", "wood": "0"}
ID = "6f2c1c1e-5a0e-4c8a-9d0f-0123456789ab"


def file_text(ident=ID, **sizes):
    ticked = {"id": ident, "ticks": {"master 1": TICK | sizes}}
    return json.dumps({"schema": "pourwright-sawn/1.0", "variants": {"main": ticked}})


def test_a_file_as_it_was_written_is_read(tmp_path):
    (tmp_path / TICKS).write_text(file_text())
    ticked = ticked_of(tmp_path, "main")
    assert (ticked.id, list(ticked.ticks)) == (ID, ["master 1"])


@pytest.mark.parametrize(
    "text",
    [
        file_text()[:80],
        file_text(ident="mine"),
        file_text(length_m=float("nan")),
        file_text(width_m=float("inf")),
        file_text(thickness_m=-0.018),
    ],
)
def test_another_is_refused_and_left_alone(tmp_path, text):
    (tmp_path / TICKS).write_text(text)
    with pytest.raises(UserError, match="cannot be read: it is torn"):
        change_ticks(tmp_path, "main", lambda _: Ticked())
    assert (tmp_path / TICKS).read_text() == text
