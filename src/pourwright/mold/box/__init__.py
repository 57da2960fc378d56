"""The box: what its panels bear and what stiffens them."""
