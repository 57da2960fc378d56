"""Two ways of filling, side by side: resin over dry glass, or glass stirred in first."""
