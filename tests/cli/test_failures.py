import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import click
import pytest

from pourwright.cli import stopping
from pourwright.cli.commands import pourwright
from pourwright.foundation.errors import Cancelled, UserError
from tests.cli.conftest import Said
from tests.cli.fake_app import FakeApp

Say = Callable[..., Said]


def walk(command: click.Command, name: str) -> Iterator[tuple[str, click.Command]]:
    yield name, command
    if isinstance(command, click.Group):
        for each, below in sorted(command.commands.items()):
            yield from walk(below, f"{name} {each}")


COMMANDS = dict(walk(pourwright, "pourwright"))
# groups only lead to commands, and the page answers in the browser
ANSWER = [
    name
    for name, each in COMMANDS.items()
    if not isinstance(each, click.Group) and name != "pourwright serve"
]


@pytest.mark.parametrize("name", COMMANDS)
def test_every_help_shows_an_example(say: Say, name: str) -> None:
    said = say(*name.split()[1:], "--help")
    assert said.status == 0
    assert any(line.strip().startswith(name) for line in said.out.splitlines()[1:])


@pytest.mark.parametrize("name", ANSWER)
def test_every_command_speaks_json_and_says_what_its_options_do(name: str) -> None:
    options = [each for each in COMMANDS[name].params if isinstance(each, click.Option)]
    assert "--json" in {opt for each in options for opt in each.opts}
    assert all(each.help for each in options)


@pytest.mark.parametrize(
    ("arguments", "line"),
    [
        (["plan"], "pourwright plan: Missing argument 'JOB'; do: see pourwright plan --help"),
        (["pour"], "pourwright: No such command 'pour'"),
        (["plan", "a", "b"], "pourwright plan: Got unexpected extra argument (b)"),
        (["plan", "a", "--fin"], "pourwright plan: No such option"),
        (
            ["plan", "a", "--start", "monday"],
            "--start: 'monday' is no day and time; allowed: YYYY-MM-DD HH:MM",
        ),
        (["plan", "a", "--start", "2026-12-01"], "--start: '2026-12-01' is no day and time"),
        (["plan", "a", "--start", "2026-12-01 09:00+01:00"], "--start: '2026-12-01 09:00+01:00' is no day"),
        (
            ["shape", "part.stl"],
            "part.stl: an STL file does not say its unit; allowed: mm, in; do: add --unit",
        ),
    ],
)
def test_a_mistake_is_one_line_and_status_2(app: FakeApp, say: Say, arguments: list[str], line: str) -> None:
    said = say(*arguments)
    assert said.status == 2
    assert said.out == ""
    assert said.err.startswith(line)
    assert said.err.count("\n") == 1


@pytest.mark.parametrize(
    ("failure", "status", "line"),
    [
        (UserError("no unit", where="job.toml:3 mold.wall"), 2, "job.toml:3 mold.wall: no unit"),
        (PermissionError(13, "Permission denied", "stool/plan"), 2, "stool/plan: Permission denied"),
        (KeyboardInterrupt(), 130, "stopped"),
        (Cancelled(), 130, "stopped"),
    ],
)
@pytest.mark.parametrize("extra", [[], ["--json"]])
def test_what_stops_a_plan(
    app: FakeApp, say: Say, failure: BaseException, status: int, line: str, extra: list[str]
) -> None:
    app.failure = failure
    said = say("plan", "stool/job.toml", *extra)
    assert said.status == status
    assert said.out == ""
    last = said.err.splitlines()[-1]
    assert last.startswith(line)
    assert "Traceback" not in said.err


def test_a_bug_of_ours_is_not_dressed_up_as_the_makers_mistake(app: FakeApp) -> None:
    from pourwright.cli import main

    app.failure = ZeroDivisionError("ours")
    with pytest.raises(ZeroDivisionError):
        main(["plan", "stool/job.toml"])


def test_nothing_said_shows_help(say: Say) -> None:
    assert say().status == 0
    assert say().out == say("--help").out


def test_help_loads_nothing_heavy(tmp_path: Path) -> None:
    heavy = {"numpy", "scipy", "numba", "trimesh", "pydantic", "rich.table", "typst", "pourwright.app"}
    code = (
        "import sys\nfrom pourwright.cli import main\n"
        "try:\n    main(['plan', '--help'])\nexcept SystemExit as left:\n    status = left.code\n"
        f"print(status, sorted(sys.modules.keys() & {heavy!r}))"
    )
    ran = subprocess.run(
        [sys.executable, "-c", code],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
        env=os.environ,
    )
    assert ran.returncode == 0, ran.stderr
    assert ran.stdout.splitlines()[-1] == "0 []"


def test_a_compiler_that_is_interrupted_in_its_midst_is_a_stop(
    app: FakeApp, say: Say, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It swallows the interruption and dies of something of its own."""
    app.failure = AttributeError("'ValueRef' object has no attribute '_as_parameter_'")
    monkeypatch.setattr(stopping, "_asked", [2])
    monkeypatch.setattr("pourwright.cli.meter.stop_if_asked", lambda: None)
    said = say("plan", "stool/job.toml")
    assert said.status == 130
    assert said.err.splitlines()[-1] == "stopped; nothing half-written was left"


def test_what_a_stop_leaves_half_made_goes_without_a_word(tmp_path: Path) -> None:
    """Its finalizer may run as late as the process ends, below the line that says that all is well."""
    program = """
import os, signal
from pourwright.cli.stopping import listen

class HalfMade:
    def __del__(self):
        self.handle.close()

listen()
half = HalfMade()
try:
    os.kill(os.getpid(), signal.SIGTERM)
    signal.pause()
except KeyboardInterrupt:
    print("stopped")
"""
    ran = subprocess.run(
        [sys.executable, "-c", program], cwd=tmp_path, capture_output=True, text=True, check=False
    )
    assert (ran.stdout, ran.stderr, ran.returncode) == ("stopped\n", "", 0)
