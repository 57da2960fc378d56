"""The size ledger in the terminal, on the invented plan."""

import io
from collections.abc import Callable

from rich.console import Console

from pourwright.cli.size_tables import ledger_lines
from pourwright.cli.words import Words
from tests.cli.conftest import Said
from tests.cli.fake_app import FakeApp
from tests.sheets.sample_sizes import sizes_document


def told(shape_is: str, units: str = "metric") -> list[str]:
    paper = Console(file=io.StringIO(), width=120)
    for line in ledger_lines(sizes_document(shape_is)["sizes"], Words(units)):
        paper.print(line)
    return paper.file.getvalue().splitlines()  # type: ignore[attr-defined]


def starts(lines: list[str]) -> list[str]:
    return [line.partition("  ")[0] for line in lines if " mm" in line and line[0] in "mp+-="]


def test_from_the_piece_to_the_master() -> None:
    assert starts(told("piece"))[:6] == [
        "piece, sanded, as wanted",
        "+ sanded off",
        "+ casting shrinks",
        "+ warm rubber comes in",
        "+ rubber shrinks",
        "= master",
    ]


def test_from_the_master_to_the_piece() -> None:
    lines = told("master")
    assert starts(lines)[:6] == [
        "master",
        "- rubber shrinks",
        "- warm rubber comes in",
        "- casting shrinks",
        "- sanded off",
        "= piece, sanded",
    ]
    between = next(line for line in lines if line.startswith("between"))
    assert "439.40 to 440.40 mm" in between


def test_through_the_skin_and_what_it_rests_on() -> None:
    text = " ".join(" ".join(told("piece", "us")).split())
    assert "Sanding 1 mm off the sides goes through the skin to the glass" in text
    assert "there the master stands 0.020 in out over the piece" in text
    assert "Rests on: it gels at 37 °C (22 to 52 °C)." in text


def test_a_plan_tells_master_and_piece_in_a_line_each(app: FakeApp, say: Callable[..., Said]) -> None:
    app.plan = sizes_document()
    out = " ".join(say("plan", "job.toml").out.split())
    assert "Master cut it 301.70 mm x 301.70 mm x 441.70 mm" in out
    assert "Sanded the piece is 300.00 mm x 300.00 mm x 440.00 mm, cast 301.00 mm" in out
