"""How long work tells where it is, and how it is asked to stop."""

from typing import Protocol


class Progress(Protocol):
    """Whoever wants to follow long work."""

    def step(self, stage: str, done: float, total: float) -> None:
        """Take note of the work's state.

        Parameters
        ----------
        stage : str
            What is being done, in the maker's words.
        done, total : float
            How much of how much; any unit, the same for both.

        Raises
        ------
        Cancelled
            When the maker has asked for the work to stop.
        """


class _Silent:
    """Follows nothing and never stops the work."""

    def step(self, stage: str, done: float, total: float) -> None:
        """Do nothing."""


SILENT: Progress = _Silent()
