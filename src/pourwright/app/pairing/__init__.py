"""Phones that may reach the bench: paired by a code, known by a token, taken back."""
