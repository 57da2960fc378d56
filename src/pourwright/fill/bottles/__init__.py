"""From bottles to crushed glass: sizes by sieve, bottles, work, drying, what is sorted out."""
