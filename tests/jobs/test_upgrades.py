"""Numbered one-way upgrades, tried with two steps of our own."""

import pytest

from pourwright.foundation.errors import UserError
from pourwright.jobs.upgrades import format_of, upgrade_file, upgraded

STEPS = {
    1: lambda text: text.replace("format = 1", "format = 2").replace("lift", "pour"),
    2: lambda text: text.replace("format = 2", "format = 3") + "more = true\n",
}


def test_steps_run_in_order_from_any_format():
    assert upgraded("format = 1\nlift = 1\n", 1, STEPS, 3) == "format = 3\npour = 1\nmore = true\n"
    assert upgraded("format = 2\nlift = 1\n", 2, STEPS, 3) == "format = 3\nlift = 1\nmore = true\n"
    assert upgraded("format = 3\n", 3, STEPS, 3) == "format = 3\n"


def test_a_file_is_upgraded_in_place_and_a_copy_kept(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text("format = 1\nlift = 1\n")
    upgrade_file(path, 1, STEPS, 3)
    assert path.read_text() == "format = 3\npour = 1\nmore = true\n"
    assert (tmp_path / "job.toml.format-1").read_text() == "format = 1\nlift = 1\n"


def test_the_newest_format_is_left_alone(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text("format = 1\n")
    upgrade_file(path, 1)
    assert [entry.name for entry in tmp_path.iterdir()] == ["job.toml"]


@pytest.mark.parametrize("number", [None, 0, -1, "1", 1.0, True, 2])
def test_formats_that_are_refused(number):
    with pytest.raises(UserError, match="allowed: 1;"):
        format_of({} if number is None else {"format": number}, "job.toml:1")
