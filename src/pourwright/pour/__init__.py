"""How one pour behaves: set up the site, lay it out on a grid, follow heat and cure."""
