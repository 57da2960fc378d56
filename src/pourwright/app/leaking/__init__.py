"""A leak found in the morning: what is left, whether it still runs, what saves the piece."""
