"""Bands that are only tried."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings, strategies as st

from pourwright.app.answering.answers import answers_of
from pourwright.app.answering.desk import Desk
from pourwright.app.answering.document import BandsTold
from pourwright.app.answering.trial import trial_of
from tests.app.answering.conftest import CYLINDER, folder_of

GLASS = {"grade": "medium", "colour": "green"}


def told(desk: Desk, folder: Path, *bands: dict[str, object]) -> BandsTold:
    trial = trial_of(desk, folder, None, bands)
    assert trial.fill is not None, trial.error
    return trial.fill


def test_the_written_bands_tried_are_the_answers(stool: Path, desk: Desk) -> None:
    written = [
        {"to": "90 mm", "neat": True},
        {"to": "240 mm", "grade": "coarse", "colour": "bottle green",
         "bucket_test": {"mass": "6.85 kg", "volume": "5 l"}},
        {"to": "top", "grade": "medium", "colour": "amber"},
    ]  # fmt: skip
    assert told(desk, stool, *written) == answers_of(desk, stool).fill


def test_no_band_at_all_is_neat_to_the_top(column: Path, desk: Desk) -> None:
    (only,) = told(desk, column).bands
    assert (only.kind, only.number, only.written) == ("neat", None, "top")
    assert only.glass_kg == 0.0


def test_twice_the_height_of_a_band_in_a_cylinder_is_twice_the_glass(column: Path, desk: Desk) -> None:
    # from 50 mm up, where no floor makes grains lie looser
    stack = [{"to": 0.05, "neat": True}, {"to": 0.15, **GLASS}, {"to": "top", "neat": True}]
    twice = [stack[0], {"to": 0.25, **GLASS}, stack[2]]
    low, high = told(desk, column, *stack).bands[1], told(desk, column, *twice).bands[1]
    assert high.glass_kg == pytest.approx(2 * low.glass_kg, rel=1e-9)
    assert high.resin_kg == pytest.approx(2 * low.resin_kg, rel=1e-9)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(heights=st.lists(st.integers(1, 399), min_size=1, max_size=6, unique=True))
def test_bands_sum_to_the_piece_wherever_their_borders_are(
    heights: list[int], column: Path, desk: Desk
) -> None:
    bands: list[dict[str, object]] = [
        {"to": millimetres / 1000, **({"neat": True} if place % 2 else GLASS)}
        for place, millimetres in enumerate(sorted(heights))
    ]
    found = told(desk, column, *bands, {"to": "top", "neat": True})
    totals = {one.key: one.value for one in found.totals}
    mass = sum(band.glass_kg + band.resin_kg for band in found.bands)
    assert mass == pytest.approx(totals["piece_mass_kg"], rel=1e-9)
    # the volume of a turned cylinder of many flat sides is a little under that of a round one
    assert sum(band.volume_m3 for band in found.bands) == pytest.approx(3.14159 * 0.06**2 * 0.4, rel=5e-3)
    assert found.bands[0].lower.m == 0.0
    for below, above in zip(found.bands, found.bands[1:], strict=False):
        assert below.upper == above.lower
    assert totals["batches_count"] == sum(band.batches for band in found.bands)


def test_both_readings_run_against_each_other_in_a_piece_poured_upside_down(stool: Path, desk: Desk) -> None:
    upper = told(desk, stool, {"to": 0.1, "neat": True}, {"to": "top", "neat": True}).bands[0].upper
    assert (upper.text, upper.standing_text, upper.dip_text) == ("100 mm", "340 mm", "340 mm")


@pytest.mark.parametrize(
    ("bands", "band", "word"),
    [
        ([{"to": 0.2, **GLASS}, {"to": 0.1, **GLASS}, {"to": "top", "neat": True}], 2, "above the band"),
        ([{"to": 0.5, **GLASS}, {"to": "top", "neat": True}], 1, "500 mm"),
        ([{"to": 0.1, "grade": "boulders"}, {"to": "top", "neat": True}], 1, "boulders"),
        ([{"to": 0.1, "void_fraction": 0.99, **GLASS}, {"to": "top", "neat": True}], 1, "void"),
        ([{"to": "somewhere", **GLASS}], 1, "somewhere"),
    ],
)  # fmt: skip
def test_refused_bands_come_back_with_the_reason(
    bands: list[dict[str, object]], band: int, word: str, column: Path, desk: Desk
) -> None:
    trial = trial_of(desk, column, None, bands)
    assert trial.fill is None
    assert trial.error is not None
    assert trial.error.band == band
    assert word in f"{trial.error.what} {trial.error.allowed}"
    assert "job.toml" not in trial.error.where


def test_glass_that_does_not_get_down_is_told_and_not_refused(tmp_path: Path, desk: Desk) -> None:
    narrow = CYLINDER.replace('"60 mm", "0 mm"', '"4 mm", "0 mm"').replace('"60 mm", "400', '"4 mm", "400')
    folder = folder_of(narrow, tmp_path / "narrow")
    found = told(desk, folder, {"to": 0.1, "grade": "coarse"}, {"to": "top", "neat": True})
    assert len(found.stops) == 1
    assert "does not get down" in found.stops[0]


def test_gypsum_has_no_bands_to_try(tmp_path: Path, desk: Desk) -> None:
    text = CYLINDER.replace("epoxy-slow-deep", "gypsum-casting")
    folder = folder_of(text[: text.index("[[band]]")] + text[text.index("[shop]") :], tmp_path / "gypsum")
    trial = trial_of(desk, folder, None, [{"to": "top", "neat": True}])
    assert trial.fill is None
    assert trial.error is not None
    assert "no bands" in trial.error.what
