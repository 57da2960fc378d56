"""What loggers saw of a pour, against what its plan said."""
