"""What a piece of a job costs and is sold for: the plan's kilograms and hours times the shop's prices."""
