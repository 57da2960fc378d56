"""What a shop's own records say of a number, with the family's as a start."""
