"""The resin of the reference exotherms B44 to B46, bare in still air, as a job file pins it."""

PINNED = """\
[pin.kinetics]
a1 = "3e4 1/s"
e1 = "60 kJ/mol"
a2 = "1.1e5 1/s"
e2 = "55 kJ/mol"
m = 0.6
n = 1.8
heat_of_reaction = "350 J/g"
diffusion = false
[pin.matter]
density = "1100 kg/m3"
heat_capacity = "1800 J/(kg K)"
conductivity = "0.2 W/(m K)"
[pin.mold]
around = false
[pin.film]
h = "8 W/(m2 K)"
"""
