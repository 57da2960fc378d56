"""What a piece costs and what it is sold for: exact money, no job file, no currency but its smallest coin."""
