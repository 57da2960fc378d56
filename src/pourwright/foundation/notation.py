"""Workshop notation to exact numbers and back."""
