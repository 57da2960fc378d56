"""Shape and check for what is mixed with water; the computer's zone; a plan's folder on a full disk."""

from pathlib import Path

import pytest

from pourwright.app import check_job, describe_shape
from pourwright.app.plan_folder import write_plan
from pourwright.app.starting import system_zone
from pourwright.foundation.errors import UserError
from pourwright.materials import load_materials
from tests.app.conftest import EXAMPLES, SMALL
from tests.sheets.sample_plan import sample_plan


def test_shape_tells_powder_and_water():
    report = describe_shape(EXAMPLES / "hourglass-stool" / "stool.stl", "mm").to_json()
    gypsum = next(mix for mix in report["mixes"] if mix["material"] == "gypsum-casting")
    record = load_materials().mineral["gypsum-casting"]
    assert gypsum["water_kg"] / gypsum["powder_kg"] == pytest.approx(record.water_ratio.value)
    assert gypsum["mixed_kg"] == pytest.approx(gypsum["water_kg"] + gypsum["powder_kg"])
    wet = report["piece"]["volume_m3"] * record.wet_density.value
    assert wet < gypsum["mixed_kg"] < 1.2 * wet


def test_check_tells_powder_and_water_of_a_piece_mixed_with_water(small):
    bands = SMALL[SMALL.index("[[band]]") : SMALL.index("[shop]")]
    small.write_text(SMALL.replace(bands, "").replace("epoxy-slow-deep", "gypsum-casting"), "utf8")
    report = check_job(small).to_json()
    texts = [found["text"] for found in report["findings"]]
    assert any("of powder with" in text and "of water" in text for text in texts)
    assert report["fill"] is None
    # a box of 80 x 60 x 50 mm, as hardened
    density = load_materials().mineral["gypsum-casting"].density.value
    assert report["piece"]["mass_kg"] == pytest.approx(0.08 * 0.06 * 0.05 * density)


def test_check_tells_the_mold_of_a_piece_mixed_with_water(small):
    bands = SMALL[SMALL.index("[[band]]") : SMALL.index("[shop]")]
    text = SMALL.replace(bands, "").replace("epoxy-slow-deep", "concrete-fine")
    small.write_text(text, "utf8")
    mold = check_job(small).to_json()["mold"]
    wet = load_materials().mineral["concrete-fine"].wet_density.value
    assert mold["filled_mass_kg"] - mold["empty_mass_kg"] == pytest.approx(0.08 * 0.06 * 0.05 * wet)
    small.write_text(text.replace('["80 mm", "60 mm", "50 mm"]', '["300 mm", "300 mm", "300 mm"]'), "utf8")
    found = [finding["text"] for finding in check_job(small).to_json()["findings"]]
    assert any("The filled mold weighs" in text and "use a hoist" in text for text in found)


def test_the_zone_of_the_computer(tmp_path):
    assert system_zone(tmp_path, "") is None
    (tmp_path / "etc").mkdir()
    (tmp_path / "etc" / "localtime").symlink_to("/usr/share/zoneinfo/Asia/Kathmandu")
    assert system_zone(tmp_path, "") == "Asia/Kathmandu"
    (tmp_path / "etc" / "timezone").write_text("Europe/Lisbon\n")
    assert system_zone(tmp_path, "") == "Europe/Lisbon"
    assert system_zone(tmp_path, "America/Chicago") == "America/Chicago"
    assert system_zone(tmp_path, "no such zone") == "Europe/Lisbon"


def test_an_older_plan_stays_when_the_disk_is_full(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    folder = tmp_path / "plan"
    write_plan(sample_plan(), folder)
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}

    def full_disk(self: Path, data: bytes) -> int:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full_disk)
    with pytest.raises(UserError, match="No space"):
        write_plan(sample_plan(1), folder)
    monkeypatch.undo()
    assert {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()} == before
    assert [path.name for path in tmp_path.iterdir()] == ["plan"]
