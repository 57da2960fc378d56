"""A command asked as a maker does, and one line of refusal."""

import pytest
from click.testing import CliRunner, Result

from pourwright.cli import main
from pourwright.cli.commands import pourwright


def asked(*arguments: str) -> Result:
    """What a command says to a pipe."""
    return CliRunner().invoke(pourwright, list(arguments))


def refusal(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    """The one line of a refusal, with exit status 2 and no traceback."""
    with pytest.raises(SystemExit) as left:
        main(list(arguments))
    assert left.value.code == 2
    said = capsys.readouterr().err
    assert "Traceback" not in said
    return said.splitlines()[-1]
