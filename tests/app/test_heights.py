"""Heights in both readings, of pieces poured standing, on their head and on their side."""

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.app import check_job
from pourwright.app.document.crack_words import where
from pourwright.app.heights import in_both
from pourwright.foundation.notation import UnitSystem
from pourwright.geometry import box, pour_frame
from pourwright.pour.bearing import Kind
from tests.app.conftest import SMALL
from tests.app.test_cracks import FOUND, of

BODY = box([0.2, 0.3, 0.5])
FRAMES = {up: pour_frame(BODY, up)[1] for up in ("+z", "-z", "+x", "-y")}


@pytest.mark.parametrize(
    ("up", "told"),
    [
        ("+z", "120 mm"),
        ("-z", "120 mm (380 mm as it stands)"),
        ("+x", "120 mm"),
    ],
)
def test_a_level_has_two_readings_only_upside_down(up, told):
    assert in_both(FRAMES[up], 0.12, UnitSystem.METRIC) == told


def test_inches():
    assert in_both(FRAMES["-z"], 0.1, UnitSystem.US) == "3 15/16 in (15 3/4 in as it stands)"


@settings(max_examples=40, deadline=None, derandomize=True)
@given(st.sampled_from(sorted(FRAMES)), st.floats(0, 1), st.floats(0, 1), st.floats(0, 1))
def test_a_point_keeps_its_height_as_it_stands(up, x, y, z):
    """The point is taken in the file, where its height is known, and brought into the mold."""
    frame = FRAMES[up]
    in_file = BODY.bounds[0] + (BODY.bounds[1] - BODY.bounds[0]) * [x, y, z]
    poured = frame.matrix[:3, :3] @ in_file + frame.matrix[:3, 3]
    assert frame.standing_height(poured) == pytest.approx(0.5 * z, abs=1e-12)
    if frame.upright:
        assert frame.as_standing(poured[2]) == pytest.approx(0.5 * z, abs=1e-12)


def test_places_of_cracks_speak_both():
    assert where(of(Kind.BORDER), UnitSystem.METRIC, FRAMES["+z"]).endswith("up 90 mm")
    assert where(of(Kind.BORDER), UnitSystem.METRIC, FRAMES["-z"]).endswith("up 90 mm (410 mm as it stands)")
    side = where(of(Kind.CORNER), UnitSystem.METRIC, FRAMES["+x"])
    stands = FRAMES["+x"].standing_height(FOUND.place)
    assert side == f"inner corner, up 90 mm ({1000 * stands:.0f} mm as it stands)"


def test_a_check_says_how_a_piece_lies(small):
    lying = 'box = ["80 mm", "60 mm", "50 mm"]\nup = "+x"'
    small.write_text(SMALL.replace('box = ["80 mm", "60 mm", "50 mm"]', lying), "utf8")
    report = check_job(small).to_json()
    assert (report["piece"]["up"], report["piece"]["flipped"], report["piece"]["height_m"]) == (
        "+x",
        False,
        0.08,
    )
