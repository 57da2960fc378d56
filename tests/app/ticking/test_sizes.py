"""Sizes in the name of an offcut are read back as they were rounded there."""

import pytest
from hypothesis import given, strategies as st

from pourwright.app.ticking.sizes import offcut_name, sizes_in
from pourwright.sheets.wording import Wording
from tests.sheets.sample_plan import sample_plan

JOB = sample_plan(1).job
# half a millimetre; half a sixteenth of an inch
ROUNDED = {"metric": 0.0005, "us": 0.0254 / 32}
LENGTH = st.floats(0.1, 3.0)


@pytest.mark.parametrize("units", ["metric", "us"])
@given(length=LENGTH, width=LENGTH, thick=st.floats(0.003, 0.05))
def test_sizes_in_a_name_are_read_back(units: str, length: float, width: float, thick: float) -> None:
    words = Wording(JOB.model_copy(update={"units": units}))
    found = sizes_in(offcut_name((length, width, thick), words))
    assert found == pytest.approx((length, width, thick), rel=0, abs=ROUNDED[units] + 1e-9)


@pytest.mark.parametrize(
    "name",
    ["", "mdf", "900 x 450 mm", "900 x 450 x 18", "a x b x c mm", "0 x 450 x 18 mm", "9 kg x 1 m x 1 m"],
)
def test_what_holds_no_three_sizes_has_none(name: str) -> None:
    assert sizes_in(name) is None
