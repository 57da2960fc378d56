"""Space blocks: wood that takes rubber's place in the box."""
