"""The terminal: a command line becomes one call of app, its result lines or JSON."""

from pourwright.cli.main import main

__all__ = ["main"]
