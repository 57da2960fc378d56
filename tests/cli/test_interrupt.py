"""Ctrl-C, a closed terminal or a shut-down in the middle of a real plan."""

import signal
from pathlib import Path

import pytest

from tests.cli.foreground import started

JOB = """format = 1
[shape]
box = ["300 mm", "300 mm", "300 mm"]
[casting]
material = "epoxy-slow-deep"
[shop]
temperature = "22 degC"
"""


@pytest.mark.parametrize("stop", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
def test_being_stopped_leaves_nothing_half_written(tmp_path: Path, stop: signal.Signals) -> None:
    (tmp_path / "job.toml").write_text(JOB)
    old = tmp_path / "plan"
    old.mkdir()
    last_week = '{"schema": "pourwright-plan/1.0", "made": "last week"}'
    (old / "plan.json").write_text(last_week)
    running = started(tmp_path, "plan", "job.toml", "--json")
    assert running.stderr is not None
    # the first stage is told after everything is loaded, so the signal finds the plan at work
    first = next(line for line in running.stderr if line.endswith("...\n"))
    running.send_signal(stop)
    out, err = running.communicate(timeout=120)
    assert first == "reading the shape ...\n"
    assert running.returncode == 130, err
    assert out == ""
    assert err.splitlines()[-1] == "stopped; nothing half-written was left"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["job.toml", "plan"]
    assert (old / "plan.json").read_text() == last_week
