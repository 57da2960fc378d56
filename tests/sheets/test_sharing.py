"""Short sections share a sheet, long ones and those with pictures start one."""

from pourwright.sheets.sharing import SHEET, lines_of, shared

SHORT = {"title": "None", "lead": "", "blocks": [{"text": "nothing is caught"}]}
LONG = {"title": "Much", "blocks": [{"text": "word " * 800}]}
DRAWN = {"title": "Picture", "blocks": [{"drawing": "a.svg", "alt": "a"}]}


def test_short_sections_go_on_below_each_other() -> None:
    flows = [page.get("flows", False) for page in shared([LONG, SHORT, SHORT, DRAWN, SHORT])]
    assert flows == [False, True, True, False, True]


def test_no_sheet_is_filled_beyond_its_height() -> None:
    used = 0.0
    for page in shared([SHORT] * 40):
        used = used + lines_of(page) if page.get("flows") else lines_of(page)
        assert used <= SHEET


def test_the_first_section_never_goes_on() -> None:
    assert "flows" not in shared([SHORT])[0]


def test_rows_facts_and_pictures_take_room() -> None:
    bare = lines_of({"title": "a"})
    table = {"table": {"heads": ["a"], "rows": [["1"]] * 10, "align": ["l"]}}
    assert lines_of({"title": "a", "blocks": [table]}) > bare + 10
    assert lines_of({"title": "a", "facts": [{}] * 5}) > lines_of({"title": "a", "facts": [{}] * 4})
    assert lines_of(DRAWN) > bare + 20
