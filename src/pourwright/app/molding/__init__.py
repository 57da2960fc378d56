"""The mold of a job: how it is made, part by part; what is drawn, printed and written of it."""
