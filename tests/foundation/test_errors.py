import pickle

from pourwright.foundation.errors import UserError
from pourwright.foundation.progress import SILENT


def test_one_line_whatever_came() -> None:
    error = UserError(
        "no unit\nin sight", where="stool/job.toml:14 mold.wall", allowed="mm, in", todo="add one"
    )
    assert str(error) == "stool/job.toml:14 mold.wall: no unit in sight; allowed: mm, in; do: add one"
    assert str(UserError("nothing there")) == "nothing there"
    assert error.exit_status == 2


def test_survives_a_process_border() -> None:
    error = UserError("what", where="there", allowed="this", todo="that")
    assert str(pickle.loads(pickle.dumps(error))) == str(error)


def test_silent_progress_takes_anything() -> None:
    SILENT.step("heat run", 3, 10)
    SILENT.step("", float("nan"), 0)
