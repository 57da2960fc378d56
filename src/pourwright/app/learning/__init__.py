"""What the shop learns from its own records, in words and for the next plan."""
