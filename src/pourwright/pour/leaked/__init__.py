"""A pour that has run out in part: how much, whether it still runs, and what fills it up again."""
