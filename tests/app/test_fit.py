"""A facts file through the whole fit: files there, the record usable, faults told with their place."""

import json
from math import isnan
from xml.etree import ElementTree as ET

import pytest
from pypdf import PdfReader

from pourwright import app
from pourwright.foundation.errors import UserError
from pourwright.materials import load_materials
from tests.calibration.invented import invented_resin, logged_cup

HEAD = """format = 1
id = "river-resin"
name = "River resin"
family = "epoxy-slow-deep"
invented = true

[mix]
density = "1090 kg/m3"
"""
SHEET = """
[[gel_time]]
time = "24 h"
mass = "100 g"

[[heat_deflection]]
temperature = "43 degC"
"""
CUP = """
[[cup]]
file = "cup.csv"
mass = "400 g"
"""


def written(folder, text):
    path = folder / "facts.toml"
    path.write_text(text, "utf8")
    return path


def logger_file(folder):
    reading = logged_cup(invented_resin(speed=0.5), hours=36.0)
    rows = [
        f"{t:.0f},{'' if isnan(c) else format(c - 273.15, '.1f')},{a - 273.15:.1f}"
        for t, c, a in list(zip(reading.time, reading.cup, reading.air, strict=True))[::3]
    ]
    (folder / "cup.csv").write_text("\n".join(["time (s),cup °C,air °C", *rows]) + "\n", "utf8")


@pytest.fixture(scope="module")
def sheet(tmp_path_factory):
    folder = tmp_path_factory.mktemp("sheet")
    return app.fit_resin(written(folder, HEAD + SHEET))


@pytest.fixture(scope="module")
def tested(tmp_path_factory):
    folder = tmp_path_factory.mktemp("cup")
    logger_file(folder)
    return app.fit_resin(written(folder, HEAD + CUP), out=folder / "out")


def test_the_record_goes_into_the_shop(sheet, tmp_path):
    record, document, _ = sheet.files
    (tmp_path / "materials").mkdir()
    (tmp_path / "materials" / "resin.toml").write_bytes(record.read_bytes())
    resin = load_materials(tmp_path).resin["river-resin"]
    assert resin.density.value == 1090.0
    assert json.loads(document.read_text("utf8")) == json.loads(json.dumps(sheet.to_json()))


def test_every_fact_says_what_it_contributed(sheet):
    facts = sheet.to_json()["facts"]
    assert [fact["label"] for fact in facts] == ["gel time, 100 g", "heat deflection"]
    for fact in facts:
        assert {each["key"] for each in fact["without"]} == {"depth", "demold"}
        assert fact["others"]["value_p10"] < fact["others"]["value_p90"]


def test_the_same_facts_give_the_same_files(sheet, tmp_path):
    again = app.fit_resin(written(tmp_path, HEAD + SHEET))
    for first, second in zip(sheet.files, again.files, strict=True):
        assert first.read_bytes() == second.read_bytes()


def test_the_recipe_is_one_page_and_says_how_much(sheet):
    reader = PdfReader(sheet.files[2])
    assert len(reader.pages) == 1
    text = " ".join(reader.pages[0].extract_text().split())
    cup = sheet.to_json()["next_cup"]
    assert f"{1000 * cup['mass_kg']:.0f} g" in text
    assert cup["part_a_kg"] + cup["part_b_kg"] == pytest.approx(1.2 * cup["mass_kg"], rel=1e-3)
    assert cup["peak_degC_p90"] <= 70.0 or cup["mass_kg"] == 0.02


def test_a_cup_test_is_drawn_with_its_band(tested):
    cup = tested.to_json()["cups"][0]
    assert len(cup["time_h"]) == len(cup["measured_degC"]) == len(cup["fitted_degC_p90"])
    assert all(low <= high for low, high in zip(cup["fitted_degC_p10"], cup["fitted_degC_p90"], strict=True))
    near = [abs(a - b) for a, b in zip(cup["measured_degC"], cup["fitted_degC"], strict=True)]
    # the logger's noise is 0.25 K a reading
    assert sorted(near)[len(near) // 2] < 0.5
    picture = tested.files[3].read_text("utf8")
    assert ET.fromstring(picture).tag.endswith("svg")
    assert "invented data" in picture


def test_a_cup_test_makes_the_record_measured_here(tested):
    text = tested.files[0].read_text("utf8")
    assert 'kind = "measured here", source = "cup-test"' in text


BAD = {
    "family": (
        HEAD.replace("epoxy-slow-deep", "epoxy-other") + SHEET,
        "facts.toml:4 family: no family called",
    ),
    "no logger": (HEAD + CUP, "facts.toml:11 cup[1].file: no such file: cup.csv"),
}


@pytest.mark.parametrize("name", BAD)
def test_faults_are_told_with_their_place(tmp_path, name):
    text, message = BAD[name]
    with pytest.raises(UserError) as refused:
        app.fit_resin(written(tmp_path, text))
    assert message in str(refused.value)
    assert not (tmp_path / "fit").exists()


def test_a_logger_in_the_wrong_unit_is_asked_about(tmp_path):
    logger_file(tmp_path)
    text = (tmp_path / "cup.csv").read_text("utf8").replace("cup °C,air °C", "cup,air")
    (tmp_path / "cup.csv").write_text(text, "utf8")
    with pytest.raises(UserError, match=r"cup.csv:2: the file does not say whether"):
        app.fit_resin(written(tmp_path, HEAD + CUP))
    with pytest.raises(UserError, match='if it is in degC, write unit = "degC"'):
        app.fit_resin(written(tmp_path, HEAD + CUP + 'unit = "degF"\nroom = "20 degC"\n'))
