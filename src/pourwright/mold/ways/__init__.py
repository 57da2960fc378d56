"""The ways of making a mold, each with what it takes, and the one that is recommended."""
