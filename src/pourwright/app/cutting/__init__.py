"""What is sawn for a job: master, box, space blocks and bars, on the sheets that the shop has."""
