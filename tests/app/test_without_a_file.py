"""A thing without a file, from the job to what a maker is told."""

import re
from pathlib import Path

import numpy as np
import pytest

from pourwright.app import check_job, describe_shape
from pourwright.app.shaping.displaced import displaced_volume
from pourwright.app.shaping.measured import level_spread, measured_doubt, twice_of
from pourwright.app.shaping.shaped import SizeDoubt
from pourwright.app.shaping.size_words import allowance_words
from pourwright.app.shaping.tape_doubt import tape_doubt
from pourwright.app.shaping.tape_picture import outline_doubt
from pourwright.app.shaping.tape_rows import TapeRow, body_of
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem
from pourwright.geometry import measure, plane_section, read_mesh
from pourwright.jobs import read_job

EXAMPLES = Path(__file__).parents[2] / "examples"

HEAD = """format = 1
title = "vase"
[casting]
material = "{material}"
[shop]
temperature = "20 degC"
"""
VASE = [(0, 440), (90, 640), (180, 720), (300, 480), (360, 390)]
STONE = '[shape.displaced]\nsize = ["240 mm", "180 mm", "130 mm"]\nform = "{form}"\n{water}\n'


def vase(rows=VASE, more=""):
    lines = "\n".join(f'  {{ height = "{height} mm", girth = "{girth} mm" }},' for height, girth in rows)
    return f"[shape.measured]\nat = [\n{lines}\n]\n{more}\n"


@pytest.fixture
def job(tmp_path):
    def write(shape, material="epoxy-slow-deep", more=""):
        path = tmp_path / "job.toml"
        path.write_text(HEAD.format(material=material) + shape + more, "utf8")
        return path

    return write


def doubt_of(rows=VASE, more=""):
    text = HEAD.format(material="epoxy-slow-deep") + vase(rows, more)
    return measured_doubt(read_job(text).shape.measured)[1]


def stone(form="rounded", water='water = "3.2 kg"'):
    return STONE.format(form=form, water=water)


def test_the_answer_carries_the_band(job):
    told = describe_shape(job(vase())).to_json()
    piece, tape = told["piece"], told["tape"]
    assert piece["volume_m3_p10"] < piece["volume_m3"] < piece["volume_m3_p90"]
    assert tape["volume_m3_p10"] == piece["volume_m3_p10"]
    shares = [cause["give_or_take_m3"] for cause in tape["causes"]]
    assert shares == sorted(shares, reverse=True)
    assert tape["give_or_take_m3"] == pytest.approx(np.sqrt(np.sum(np.square(shares))))
    assert told["told"][0].startswith("Measured with a tape: 10.")
    assert "in 8 of 10 cases" in told["told"][0]
    assert any("half-way up a pour may end up to" in text for text in told["told"])


@pytest.mark.parametrize(("count", "within"), [(6, 0.01), (8, 0.006)])
def test_the_stool_of_the_examples_from_its_girths(count, within):
    """Its file is known: perimeters of its sections, read to the millimetre, clear of the rounded edges."""
    stool = read_mesh(EXAMPLES / "hourglass-stool" / "stool.stl", "mm")
    low, high = stool.bounds[:, 2]
    rows = [TapeRow(0.0, closes="flat")]
    for height in np.linspace(0.012, high - low - 0.012, count):
        (outline,) = plane_section(stool, "z", low + height)
        around = np.linalg.norm(outline - np.roll(outline, 1, axis=0), axis=1).sum()
        rows.append(TapeRow(float(height), girth=round(float(around), 3)))
    rows.append(TapeRow(float(high - low), closes="flat"))
    body, exact = body_of(rows), measure(stool).volume
    volume = measure(body.mesh()).volume
    assert volume == pytest.approx(exact, rel=within)
    below, above = tape_doubt(rows, body, volume, 0.002).band
    assert below < exact < above


@pytest.mark.parametrize(("sizes", "end"), [((0.3, 0.36), 0.378), ((0.4, 0.4), 0.4), ((0.1, 0.4), 0.49)])
def test_a_straight_end_goes_on_from_the_two_readings_beside_it(sizes, end):
    """Three tenths of the way further; no further out than a quarter of the last reading allows."""
    rows = [TapeRow(z, diameter=size) for z, size in zip((0.0, 0.1), sizes, strict=True)]
    section = body_of([*rows, TapeRow(0.13, closes="flat")]).sections[-1]
    assert section.width == pytest.approx(end)


def test_a_body_of_one_reading_between_flat_ends_is_a_post():
    rows = [TapeRow(0.0, closes="flat"), TapeRow(0.1, girth=0.5), TapeRow(0.2, closes="flat")]
    body = body_of(rows)
    assert measure(body.mesh()).volume == pytest.approx(0.25 / (4 * np.pi) * 0.2, rel=1e-9)
    low, high = tape_doubt(rows, body, 0.25 / (4 * np.pi) * 0.2, 0.002).band
    assert low < measure(body.mesh()).volume < high


def test_a_body_from_sizes_carries_none(job):
    piece = describe_shape(job('[shape]\nbox = ["1 in", "2 in", "3 in"]\n')).to_json()["piece"]
    assert piece["volume_m3_p10"] is None


def test_the_reading_that_is_asked_for_gains_what_was_promised():
    """Taken where it was asked for, on the curve itself, the doubt shrinks by more than half the promise."""
    first = doubt_of()
    height = round(first.following.height * 1000)
    body = body_of([TapeRow(h / 1000, girth=g / 1000) for h, g in VASE])
    girth = 2 * np.pi * float(body.halves(np.array([height / 1000]))[0, 0])
    second = doubt_of(sorted([*VASE, (height, round(girth * 1000))]))
    promised = first.deviation - first.following.deviation
    assert promised > 0
    assert first.deviation - second.deviation > promised / 2


def test_a_finer_tape_is_surer():
    fine, coarse = doubt_of(more='reading = "0.5 mm"'), doubt_of(more='reading = "10 mm"')
    assert fine.deviation < coarse.deviation
    assert coarse.parts[0].cause == "reading"


def test_a_diameter_is_less_sure_than_a_girth():
    rows = [TapeRow(h / 1000, girth=g / 1000) for h, g in VASE]
    across = [TapeRow(h / 1000, diameter=g / 1000 / np.pi) for h, g in VASE]
    assert body_of(rows).areas == pytest.approx(body_of(across).areas)
    for girth, diameter in zip(rows, across, strict=True):
        assert diameter.sensitivity() == pytest.approx(np.pi * girth.sensitivity(), rel=1e-3)


def test_where_the_outline_is_least_sure_lies_between_readings():
    rows = [TapeRow(h / 1000, girth=g / 1000) for h, g in VASE]
    levels = np.linspace(0.0, 0.36, 361)
    wide = outline_doubt(rows, body_of(rows), levels, 0.002)
    assert levels[np.argmax(wide)] == pytest.approx(0.24, abs=0.02)
    # a girth that is 1 mm off by one standard deviation is 1/(2 pi) mm off in the radius
    assert wide[180] == pytest.approx(1.2816 * 0.001 / (2 * np.pi), rel=1e-3)


@pytest.mark.parametrize(
    ("high", "allowance", "words"),
    [
        (0.0102, 0.05, "takes 2 % more than planned, 200 ml or more"),
        (0.0102, 0.05, "the allowance of 5 % covers it, and leaves 3 % for leaks"),
        (0.0108, 0.05, "the allowance of 5 % does not cover it"),
        (0.0108, 0.05, "raise fill.allowance to 13 %"),
    ],
)
def test_what_the_band_means_for_what_stands_ready(high, allowance, words):
    told = list(allowance_words(SizeDoubt(0.009, high, ""), 0.010, allowance, UnitSystem.METRIC))
    assert len(told) == 1
    assert words in told[0]


def test_nothing_is_said_where_the_size_is_known():
    assert list(allowance_words(None, 0.01, 0.05, UnitSystem.METRIC)) == []


def test_check_compares_it_with_the_allowance(job):
    lines = [finding.line for finding in check_job(job(vase())).findings]
    assert sum("the allowance of 5 % covers it" in line for line in lines) == 1
    few = vase(VASE[::2])
    lines = [finding.line for finding in check_job(job(few, "gypsum-casting")).findings]
    raised = next(line for line in lines if "does not cover it" in line)
    share = int(re.search(r"fill.allowance to (\d+) %", raised)[1])
    report = check_job(job(few, "gypsum-casting", f"[fill]\nallowance = {share / 100}\n"))
    assert any("covers it" in finding.line for finding in report.findings)


def test_water_is_met_exactly(job):
    report = check_job(job(stone(), "gypsum-casting"))
    assert any("must be sealed or wrapped" in finding.line for finding in report.findings)
    piece = report.to_json()["piece"]
    # 3.2 kg at 20 degC and 998.20 kg/m3
    assert piece["volume_m3"] == pytest.approx(3.2 / 998.2, rel=1e-5)
    assert piece["size_m"] == pytest.approx([0.24, 0.18, 0.13])
    # one per cent, one in ten beyond
    assert piece["volume_m3_p90"] / piece["volume_m3"] == pytest.approx(1 + 0.01 * 1.2816, rel=1e-4)


def test_the_rise_in_a_tub_is_its_area_times_the_rise():
    text = HEAD.format(material="epoxy-slow-deep")
    lines = 'rise = "42 mm"\ntub = ["480 mm", "320 mm"]'
    volume, off = displaced_volume(read_job(text + stone(water=lines)).shape.displaced)
    assert volume == pytest.approx(0.48 * 0.32 * 0.042)
    # half a millimetre at each of two levels, and the tub's sides
    level, sides = 0.48 * 0.32 * 0.0005 * np.sqrt(2), volume * np.hypot(0.001 / 0.48, 0.001 / 0.32)
    assert off == pytest.approx(np.hypot(level, sides))


@pytest.mark.parametrize(("water", "words"), [("10.4 kg", "agree"), ("9 kg", "do not agree")])
def test_tape_and_water_together(job, water, words):
    """The mean of two measurements lies between them, surer than either where they agree, else less sure."""
    report = describe_shape(job(vase(more=f'[shape.displaced]\nwater = "{water}"')))
    told, tape = " ".join(report.told), report.looks["tape"]
    assert f"Tape and water {words}" in told
    low, high = sorted([tape["by_tape_m3"], tape["by_water_m3"]])
    assert low < report.piece.volume_m3 < high
    assert report.piece.volume_m3 == pytest.approx(tape["volume_m3"], rel=1e-3)
    assert report.piece.height_m == pytest.approx(0.36)
    surer = min(tape["give_or_take_m3"], tape["water_give_or_take_m3"])
    assert (tape["give_or_take_of_both_m3"] < surer) == (words == "agree")
    half = (report.piece.volume_m3_p90 - report.piece.volume_m3_p10) / 2
    assert half == pytest.approx(tape["give_or_take_of_both_m3"], rel=1e-9)


@pytest.mark.parametrize(
    ("form", "water", "what", "todo"),
    [
        ("rounded", 'water = "6 kg"', "more than the box of these outer sizes holds, 5.62 l", "measure"),
        (
            "rounded",
            'water = "0.5 kg"',
            "does not fit a body of these sizes that is rounded all over",
            "tape",
        ),
        ("standing", 'water = "1.2 l"', "allowed: 1.50 l to 5.61 l", 'form = "rounded"'),
    ],
)
def test_water_that_cannot_be_is_refused_with_the_range(job, form, water, what, todo):
    with pytest.raises(UserError) as error:
        describe_shape(job(stone(form, water)))
    assert what in str(error.value)
    assert todo in error.value.todo
    assert "job.toml:" in error.value.where


def test_the_files_of_a_measured_body(job, tmp_path):
    report = describe_shape(job(vase()), out=tmp_path / "out")
    names = {path.name for path in report.files}
    assert {"measured.svg", "measured.png", "shape.stl"} <= names
    assert (tmp_path / "out" / "measured.png").read_bytes().startswith(b"\x89PNG")


def test_a_crown_close_above_a_reading_makes_no_monster():
    """Two millimetres of dome: by hand 1 mm of each girth and height is some 20 to 40 ml in 1.4 l."""
    rows = (
        TapeRow(0.010, girth=0.46),
        TapeRow(0.045, girth=0.48),
        TapeRow(0.088, girth=0.45),
        TapeRow(0.090, closes="dome"),
    )
    body = body_of(rows)
    doubt = tape_doubt(rows, body, measure(body.mesh()).volume, 0.002)
    (reading,) = (part.deviation for part in doubt.parts if part.cause == "reading")
    assert 10e-6 < 1.28 * reading < 45e-6


def test_a_volume_is_never_below_nothing():
    rows = (TapeRow(0.0, girth=0.46), TapeRow(0.09, girth=0.46), TapeRow(0.0905, closes="dome"))
    body = body_of(rows)
    low, high = tape_doubt(rows, body, measure(body.mesh()).volume, 0.002).band
    assert 0.0 <= low < high


def test_where_tape_and_water_lie_apart_levels_do_too():
    """A fifth less in the water than by the tape: levels half-way up are off by as much of their height."""
    job = read_job(HEAD.format(material="epoxy-slow-deep") + vase(more='[shape.displaced]\nwater = "8 kg"'))
    _, doubt = measured_doubt(job.shape.measured)
    twice = twice_of(job, doubt)
    low, high = twice.band
    spread = level_spread(doubt, twice)
    assert spread == pytest.approx((high - low) / 2 / twice.volume * doubt.middle)
    assert spread > 5 * level_spread(doubt, None)
