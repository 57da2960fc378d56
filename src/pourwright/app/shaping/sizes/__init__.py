"""Between the piece that is wanted and the master that is cut: what shrinks, grows and is sanded off."""
