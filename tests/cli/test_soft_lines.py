"""Under-cure and damp in the terminal, on the invented plan."""

from collections.abc import Callable

import pytest

from pourwright.cli.soft_tables import soft_rows
from pourwright.cli.words import Words
from tests.cli.conftest import Said
from tests.cli.fake_app import FakeApp
from tests.sheets.sample_soft import soft_document


def test_a_plan_tells_stall_box_and_damp_in_a_line_each(app: FakeApp, say: Callable[..., Said]) -> None:
    app.plan = soft_document()
    out = " ".join(say("plan", "job.toml").out.split())
    for words in [
        "Stalls at 21 °C at about 90 % cured, soft above 31 °C; fully cured above 52 °C",
        "Warm box 45 °C for 12 h in the mold: soft only above 46 °C, not 31 °C; the data sheet decides",
        "Damp dew point 14 °C; too damp to start pour 3; wash and sand the top of pour 1",
    ]:
        assert words in out


def test_a_plan_that_nobody_looked_at_says_nothing(app: FakeApp, say: Callable[..., Said]) -> None:
    out = say("plan", "job.toml").out
    assert "Stalls" not in out
    assert "Damp" not in out


@pytest.mark.parametrize(
    ("units", "words"),
    [("metric", "not at 60 °C: it cures through"), ("us", "not at 140 °F: it cures through")],
)
def test_a_warm_shop_does_not_stall(units: str, words: str) -> None:
    soft = soft_document(box=False)["soft"]
    soft["stall"] |= {"cured": 1.0, "shop_degC": 60.0}
    rows = dict(soft_rows(soft, Words(units)))
    assert rows["Stalls"] == words
    assert "Warm box" not in rows


def test_dry_everywhere() -> None:
    soft = soft_document(box=False)["soft"]
    soft["damp"]["pours"] = soft["damp"]["pours"][1:2]
    assert dict(soft_rows(soft, Words("metric")))["Damp"] == "dew point 14 °C; dry enough at every start"
