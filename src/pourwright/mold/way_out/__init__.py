"""How the piece comes out of its rubber, and what that asks of it."""
