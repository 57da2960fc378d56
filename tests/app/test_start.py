from datetime import datetime
from pathlib import Path

import pytest

from pourwright.foundation.errors import UserError
from tests.app.making import plan_quickly


@pytest.mark.parametrize("year", [1999, 2200, 9999])
def test_a_start_option_far_off_is_a_slip(small: Path, tmp_path: Path, year: int) -> None:
    with pytest.raises(UserError, match=f"--start: a start in the year {year}; allowed: 2000 to 2199"):
        plan_quickly(small, out=tmp_path / "plan", start=datetime(year, 1, 11, 9))
    assert not (tmp_path / "plan").exists()
