"""The table of published checks says the truth about the tests."""

import re

from tests.published.coverage import LATER, ROW, TABLE, TESTS, found, renewed

LATER_WORK = {
    "The heat-and-cure solver, to the limit",
    "A plan that knows how sure it is",
    "The mold: less rubber, nothing sticks, floats or leaks, and the piece comes out",
    "The fill: what goes into the mold",
    "Cut once: panels, blocks and master",
    "The line: one mold, many products, prices that hold",
}


def rows():
    return [row.groups() for line in TABLE.read_text("utf8").splitlines() if (row := ROW.match(line))]


def test_table_is_up_to_date():
    text = TABLE.read_text("utf8")
    assert text == renewed(text), "run python tests/published/coverage.py"


def test_every_check_stands_once_and_in_order():
    checks = [check for check, _, _ in rows()]
    assert checks == sorted(set(checks))
    assert len(checks) == 201


def test_every_test_named_exists():
    for _, _, where in rows():
        for path, name in re.findall(r"`([\w/]+\.py)::(\w+)`", where):
            assert re.search(rf"^def {name}\(", (TESTS / path).read_text("utf8"), re.MULTILINE)


def test_no_test_holds_a_check_that_the_table_lacks():
    assert set(found()) <= {check for check, _, _ in rows()}


def test_what_has_no_test_yet_says_with_what_it_comes():
    waiting = {where.removeprefix(LATER) for _, _, where in rows() if where.startswith(LATER)}
    assert waiting <= LATER_WORK
