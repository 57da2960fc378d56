"""What a month brings in when nothing comes quite as planned."""
