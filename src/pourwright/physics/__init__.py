"""Published equations, one phenomenon to a module.

The public names of this room are its modules: ``from pourwright.physics import cure``.
Every function takes SI floats or numpy arrays: the state first, coefficients next,
reference values last and by keyword. Nothing is imported here, so that a caller pays
only for the phenomenon it asks for.
"""
