"""What the shop has learnt, as the next plan takes it."""
