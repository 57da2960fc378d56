"""Undo and redo: whatever is done, no state of the file is ever lost."""

import re
import tomllib
from pathlib import Path

from hypothesis import HealthCheck, given, settings, strategies as st

from pourwright.app.choosing import history as keeping
from pourwright.app.choosing.choosing import choose, redo, undo
from pourwright.app.choosing.document import choices_of
from pourwright.app.choosing.history import read_history
from pourwright.foundation.errors import UserError
from tests.app.choosing.conftest import JOB, text_in

COMMENTS = [found.strip() for found in re.findall(r"#.*", JOB)]
VALUES = {
    "mold.wall": ["", "19 mm", "3/4 in", "25 mm"],
    "mold.space_blocks": ["", "true", "false"],
    "fill.allowance": ["", "0.05", "8 %"],
    "prices.resin": ["", "14.80 EUR/kg"],
    "shop.night_temperature": ["", "16 degC"],
    "hollow.wall": ["", "20 mm"],
}
STEPS = st.one_of(
    st.sampled_from([(key, value) for key, values in VALUES.items() for value in values]),
    st.sampled_from([("undo", ""), ("redo", "")]),
    st.tuples(
        st.just("hand"), st.sampled_from(["\n# by hand\n", "\n[sizes]\nin_box = true\n", "\nbroken [\n"])
    ),
)


def seen(folder: Path, key: str) -> str:
    raw = tomllib.loads(text_in(folder))
    table, _, name = key.partition(".")
    value = raw.get(table, {}).get(name, "")
    return str(value).lower() if isinstance(value, bool) else str(value)


def act(folder: Path, step: tuple[str, str]) -> None:
    what, value = step
    try:
        if what == "hand":
            (folder / "job.toml").write_text(JOB + value, "utf8")
            choices_of(folder)
        elif what in {"undo", "redo"}:
            (undo if what == "undo" else redo)(folder)
        else:
            choose(folder, what, value, seen(folder, what))
    except (UserError, tomllib.TOMLDecodeError):
        pass


def walk(folder: Path, step) -> list[str]:
    texts = []
    while True:
        texts.append(text_in(folder))
        try:
            step(folder)
        except UserError:
            return texts


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(STEPS, max_size=10))
def test_no_state_is_ever_lost(tmp_path_factory, steps) -> None:
    folder = tmp_path_factory.mktemp("job")
    (folder / "job.toml").write_text(JOB, "utf8")
    choices_of(folder)
    there = [text_in(folder)]
    for step in steps:
        act(folder, step)
        there.append(text_in(folder))
    walk(folder, redo)
    back = walk(folder, undo)
    assert set(there) <= set(back)
    assert walk(folder, redo) == back[::-1]
    assert all(comment in text for text in back for comment in COMMENTS)


def test_undo_says_what_it_takes_back_and_a_hand_edit_is_a_step(folder: Path) -> None:
    choose(folder, "mold.wall", "20 mm", "19 mm")
    by_hand = text_in(folder).replace("22 degC", "18 degC")
    (folder / "job.toml").write_text(by_hand, "utf8")
    document = choices_of(folder)
    assert document["undo"].startswith("changed by hand: shop temperature")
    assert "22 degC → 18 degC" in undo(folder)
    assert "19 mm → 20 mm" in undo(folder)
    assert text_in(folder) == JOB
    assert choices_of(folder)["undo"] is None
    redo(folder)
    redo(folder)
    assert text_in(folder) == by_hand


def test_what_was_undone_stays_within_reach_of_undo(folder: Path) -> None:
    choose(folder, "mold.wall", "20 mm", "19 mm")
    lost = text_in(folder)
    undo(folder)
    choose(folder, "title", "Another", "Lamp foot")
    assert lost in walk(folder, undo)


def test_a_crash_between_history_and_file_loses_nothing(folder: Path) -> None:
    choose(folder, "mold.wall", "20 mm", "19 mm")
    done = text_in(folder)
    # the step is on record, the file was not written
    (folder / "job.toml").write_text(JOB, "utf8")
    document = choices_of(folder)
    assert document["undo"] is None
    assert "20 mm" in document["redo"]
    redo(folder)
    assert text_in(folder) == done


def test_a_line_torn_by_a_crash_is_passed_over(folder: Path) -> None:
    choose(folder, "mold.wall", "20 mm", "19 mm")
    with (folder / "history.jsonl").open("ab") as file:
        file.write(b'{"number": 3, "te')
    choose(folder, "mold.wall", "21 mm", "20 mm")
    texts = walk(folder, undo)
    assert [tomllib.loads(text)["mold"]["wall"] for text in texts] == ["21 mm", "20 mm", "19 mm"]


def test_the_oldest_states_go_and_the_latest_stay(folder: Path, monkeypatch) -> None:
    monkeypatch.setattr(keeping, "MOST", 5)
    monkeypatch.setattr(keeping, "SPARE", 3)
    walls = [f"{n} mm" for n in range(20, 50)]
    before = "19 mm"
    for wall in walls:
        choose(folder, "mold.wall", wall, before)
        before = wall
    assert len(read_history(folder).states) <= 8
    texts = walk(folder, undo)
    assert len(texts) >= 5
    assert [tomllib.loads(text)["mold"]["wall"] for text in texts] == walls[::-1][: len(texts)]
