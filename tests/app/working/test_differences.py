"""Which choices differ, in words a maker knows from the job file."""

from pourwright.app.working.differences import MOST, differences
from pourwright.jobs import read_job
from tests.app.working.conftest import TINY

BANDS = '\n[[band]]\nto = "{}"\ngrade = "medium"\ncolour = "green"\n[[band]]\nto = "top"\nneat = true\n'


def test_a_changed_choice_is_told_with_both_values() -> None:
    before, today = read_job(TINY), read_job(TINY.replace("22 degC", "19 degC"))
    assert differences(before, today) == ["shop.temperature was 22 degC, is now 19 degC"]


def test_sizes_bands_new_and_dropped_choices_are_told_by_their_place_in_the_file() -> None:
    before = read_job(TINY + BANDS.format("20 mm"))
    today = read_job(
        TINY.replace('start = "2027-01-11 09:00"', "seed = 3").replace("60 mm", "70 mm")
        + BANDS.format("1/2 in")
    )
    assert differences(before, today) == [
        "start was 2027-01-11 09:00, is no longer given",
        "shape.box was 60 mm, 60 mm, 40 mm, is now 70 mm, 70 mm, 40 mm",
        "band[1].to was 20 mm, is now 1/2 in",
        "seed is now 3",
    ]


def test_a_comment_or_the_order_of_lines_is_no_difference() -> None:
    assert differences(read_job(TINY), read_job("# said again\n" + TINY.replace("\n[", "\n\n["))) == []


def test_many_differences_are_told_as_a_number() -> None:
    changed = TINY.replace("Paperweight", "Doorstop").replace("22 degC", "21 degC").replace("40 mm", "50 mm")
    changed = changed.replace("2027-01-11", "2027-01-12").replace("Berlin", "Paris")
    changed = changed.replace("epoxy-slow-deep", "epoxy-medium").replace("invented = true\n", "")
    found = differences(read_job(TINY), read_job(changed))
    assert len(found) == MOST + 1
    assert found[-1] == "and 1 more"
