"""What lifts master and space blocks in liquid rubber, and what holds them."""
