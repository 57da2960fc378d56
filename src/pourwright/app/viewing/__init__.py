"""What the page shows of a job in space: its bodies, tints of its surface, the heat in it, all in words."""
