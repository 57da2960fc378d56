"""Label placement on drawings."""

import itertools

from hypothesis import given, strategies as st

from pourwright.sheets.labels import Places, spread

places = st.lists(st.floats(0.0, 300.0), min_size=1, max_size=14)


@given(places, st.floats(4.0, 30.0))
def test_labels_never_overlap_and_keep_their_order(wanted: list[float], room: float) -> None:
    settled = spread(sorted(wanted), [room] * len(wanted), 0.0, 300.0)
    gaps = [b - a for a, b in itertools.pairwise(settled)]
    assert all(gap >= room - 1e-6 for gap in gaps)
    assert settled[0] >= room / 2 - 1e-6


@given(places, st.floats(4.0, 20.0))
def test_labels_stay_on_the_line_when_there_is_room(wanted: list[float], room: float) -> None:
    settled = spread(sorted(wanted), [room] * len(wanted), 0.0, 300.0)
    assert settled[-1] <= 300.0 - room / 2 + 1e-6


def test_labels_with_room_stay_where_they_belong() -> None:
    assert spread([20.0, 60.0, 100.0], [10.0, 30.0, 10.0], 0.0, 200.0) == [20.0, 60.0, 100.0]


def test_no_labels_need_no_room() -> None:
    assert spread([], [], 0.0, 100.0) == []


def test_a_second_label_moves_up_until_it_is_free() -> None:
    places = Places()
    first = places.settle((0.0, 50.0, 20.0, 60.0), 4.0, 0.0)
    second = places.settle((10.0, 52.0, 30.0, 62.0), 4.0, 0.0)
    assert first == (0.0, 50.0, 20.0, 60.0)
    assert second == (10.0, 40.0, 30.0, 50.0)
