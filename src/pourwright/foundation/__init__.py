"""What every room stands on: errors, quantities, sources, notation, checks, progress, files."""
