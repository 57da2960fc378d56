"""How many good pieces a month, what stands in the way of more, and whether a second mold pays."""
