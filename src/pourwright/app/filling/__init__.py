"""What goes into a mold, part by part: told, drawn, written."""
