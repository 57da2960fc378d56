"""Which pours are best: candidates, limits, search, proof on finer grids."""
