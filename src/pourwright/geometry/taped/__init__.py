"""Bodies through what a tape or displaced water says."""
