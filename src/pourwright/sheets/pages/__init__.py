"""What each page says, as plain words and numbers ready to be set."""
