"""Being asked to stop: Ctrl-C, a closed terminal, a computer that shuts down."""

import signal
import sys
from types import FrameType

from pourwright.foundation.errors import Cancelled

_SIGNALS = ("SIGINT", "SIGTERM", "SIGHUP")
_asked: list[int] = []


def listen() -> None:
    """Take every way of being asked to stop as a Ctrl-C, and remember it."""
    _asked.clear()
    for name in _SIGNALS:
        # Windows has no SIGHUP; what a shell has told us to ignore, as under nohup, stays ignored
        number = getattr(signal, name, None)
        if number is not None and signal.getsignal(number) is not signal.SIG_IGN:
            signal.signal(number, _stop)


def _stop(number: int, _frame: FrameType | None) -> None:
    _asked.append(number)
    # what was being made this moment stays half-made, and complains while it is cleared away
    sys.unraisablehook = _say_nothing
    raise KeyboardInterrupt


def _say_nothing(_unraisable: object) -> None:
    pass


def asked_to_stop() -> bool:
    """Whether a signal to stop has come since we listen."""
    return bool(_asked)


def stop_if_asked() -> None:
    """Stop now, where foreign code has swallowed the interruption.

    Raises
    ------
    Cancelled
        When a signal has come.
    """
    if _asked:
        raise Cancelled
