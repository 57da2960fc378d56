"""The command as a terminal starts it, whatever started the tests: a background job has Ctrl-C ignored."""

import sys

_START = """
import signal
for name in ("SIGINT", "SIGTERM", "SIGHUP"):
    signal.signal(getattr(signal, name), signal.SIG_DFL)
signal.signal(signal.SIGINT, signal.default_int_handler)
from pourwright.cli import main
main()
"""
COMMAND = [sys.executable, "-c", _START]
