"""Sheets, offcuts, bars and the saw as a job file writes them."""

import pytest

from pourwright.foundation.errors import UserError
from pourwright.jobs.loading import load_job
from pourwright.jobs.wood_stock import bars_of, oversize_of, saw_of, sheets_of
from pourwright.materials.loading import load_materials

BOARDS = load_materials().board
WOOD = """
[[sheet]]
board = "mdf"
count = 2

[[sheet]]
name = "behind the door"
board = "mdf"
thickness = "12 mm"
corners = [["0 mm", "0 mm"], ["600 mm", "0 mm"], ["600 mm", "400 mm"], ["0 mm", "400 mm"]]
offcut = true
grain = "none"

[[bar]]
board = "pine"
width = "45 mm"
thickness = "70 mm"
length = "3 m"

[saw]
kerf = "1/8 in"
"""


@pytest.fixture
def job(tmp_path, text):
    def write(more):
        path = tmp_path / "job.toml"
        path.write_text(text + more, "utf8")
        return load_job(path)

    return write


def test_what_is_written_and_what_is_left_out(job):
    sheets, (bar,) = sheets_of(job(WOOD), BOARDS), bars_of(job(WOOD), BOARDS)
    whole, rest = sheets
    mdf = BOARDS["mdf"]
    assert (whole.name, whole.count, whole.grain) == ("sheet 1", 2, "none")
    assert (whole.thickness, whole.length) == (mdf.thickness.value, mdf.sheet_length.value)
    assert (rest.name, rest.thickness, rest.offcut) == ("behind the door", 0.012, True)
    assert (rest.length, rest.width) == pytest.approx((0.6, 0.4))
    assert rest.grain == "none"
    assert (bar.name, bar.width, bar.thickness, bar.length, bar.count) == ("bar 1", 0.045, 0.07, 3.0, 1)
    assert saw_of(job(WOOD)).kerf == pytest.approx(0.0254 / 8)
    assert (saw_of(job(WOOD)).trim, oversize_of(job(WOOD))) == (0.010, 0.005)


def test_without_any_there_are_none(job):
    assert sheets_of(job(""), BOARDS) == bars_of(job(""), BOARDS) == ()


SHEET = '[[sheet]]\nboard = "mdf"\n'


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (SHEET + 'length = "1 m"', "half of a size"),
        (SHEET + 'length = "0 mm"\nwidth = "1 m"', "a length of 0 mm"),
        (SHEET + "count = 0", "count"),
        (SHEET + "offcut = true", "an offcut without a size"),
        (SHEET + 'corners = [["0 in", "0 in"], ["24 in", "0 in"], ["24 in", "10 in"], ["16 in", "10 in"], '
         '["16 in", "16 in"], ["0 in", "16 in"]]', r"16 in x 16 in and 10 in x 8 in"),
        (SHEET + 'length = "1 m"\nwidth = "1 m"\ncorners = []', "both corners"),
        ('[saw]\nkerf = "3 cm"', "kerf"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_with_its_line(job, more, words):
    with pytest.raises(UserError, match=words) as caught:
        job(more)
    assert "job.toml:" in str(caught.value)


def test_a_board_that_nobody_knows(job):
    with pytest.raises(UserError, match="no board 'oka'"):
        sheets_of(job('[[sheet]]\nboard = "oka"'), BOARDS)
