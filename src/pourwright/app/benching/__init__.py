"""The bench: what is entered while it is poured, and what comes next."""
