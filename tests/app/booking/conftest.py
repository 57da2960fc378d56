"""A shop with one job that is planned: an invented stool, poured upside down in four pours."""

from pathlib import Path

import pytest

from pourwright.foundation.files import canonical_json
from tests.sheets.sample_plan import sample_document


def write_plan(folder: Path, **job: object) -> None:
    """Put a plan beside a job, as `pourwright plan` does."""
    (folder / "plan").mkdir(parents=True, exist_ok=True)
    (folder / "job.toml").write_text("format = 1\n", "utf8")
    (folder / "plan" / "plan.json").write_bytes(canonical_json(sample_document(**job)))


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    (tmp_path / "shop").mkdir()
    (tmp_path / "shop" / "shop.toml").touch()
    return tmp_path / "shop"


@pytest.fixture
def stool(shop: Path) -> Path:
    write_plan(shop / "stool")
    return shop / "stool"
