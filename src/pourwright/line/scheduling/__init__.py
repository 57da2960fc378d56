"""Work on few resources in slots of time: the least lateness by integer program, with its proof."""
