"""How a body may stand in its mold and leave it."""
