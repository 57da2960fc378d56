"""The terminal: a command line becomes one call of app, its result lines or JSON."""

import sys

__all__ = ["main"]

try:
    from pourwright.cli.main import main
except KeyboardInterrupt:
    # a Ctrl-C before anything was begun
    sys.exit(130)
