"""What a sheet was made with of the shop's own records is said in the terminal."""

from pourwright.cli.told_lines import told_lines
from tests.sheets.sample_plan import sample_document


def test_a_sheet_says_what_of_it_was_learnt() -> None:
    words = "Your pail keeps 5 % of what is mixed (4 % to 6 %), from 6 pours; the family says 2 %."
    report = {"job": sample_document(1)["job"], "learnt": [{"words": words}], "warnings": [], "cautions": []}
    told = "\n".join(str(each) for each in told_lines(report, {}))
    assert "From your own records" in told
    assert words in told
    assert "own records" not in "\n".join(str(each) for each in told_lines(report | {"learnt": []}, {}))
