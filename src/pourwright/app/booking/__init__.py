"""What is done with the shop's book: entering, listing, stock, in and out."""
