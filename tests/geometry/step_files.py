"""Small STEP files written by hand: ISO 10303-21, application protocol 214."""

from pathlib import Path

HEADER = """ISO-10303-21;
HEADER;
FILE_DESCRIPTION(('a body of a test'),'2;1');
FILE_NAME('body','2000-01-01T00:00:00',(''),(''),'','','');
FILE_SCHEMA(('AUTOMOTIVE_DESIGN {{ 1 0 10303 214 1 1 1 1 }}'));
ENDSEC;
DATA;
{lines}
ENDSEC;
END-ISO-10303-21;
"""


class StepFile:
    """Lines of a STEP file, numbered as they come; lengths in the file's unit."""

    def __init__(self, unit="mm"):
        self.lines = []
        self.application = self.add(
            "APPLICATION_CONTEXT('core data for automotive mechanical design processes')"
        )
        self.add(
            "APPLICATION_PROTOCOL_DEFINITION('international standard','automotive_design',2000,"
            f"#{self.application})"
        )
        self.context = self._context(self._length_unit(unit))

    def add(self, text):
        self.lines.append(text)
        return len(self.lines)

    def _length_unit(self, unit):
        metric = {"mm": ".MILLI.", "cm": ".CENTI.", "m": "$"}.get(unit, ".MILLI.")
        base = self.add(f"(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT({metric},.METRE.))")
        if unit != "in":
            return base
        powers = self.add("DIMENSIONAL_EXPONENTS(1.,0.,0.,0.,0.,0.,0.)")
        factor = self.add(f"LENGTH_MEASURE_WITH_UNIT(LENGTH_MEASURE(25.4),#{base})")
        return self.add(f"(CONVERSION_BASED_UNIT('INCH',#{factor})LENGTH_UNIT()NAMED_UNIT(#{powers}))")

    def _context(self, length):
        angle = self.add("(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))")
        solid = self.add("(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())")
        doubt = self.add(
            f"UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE(1.E-07),#{length},'distance_accuracy_value','')"
        )
        return self.add(
            f"(GEOMETRIC_REPRESENTATION_CONTEXT(3)GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT((#{doubt}))"
            f"GLOBAL_UNIT_ASSIGNED_CONTEXT((#{length},#{angle},#{solid}))REPRESENTATION_CONTEXT('',''))"
        )

    def point(self, place):
        return self.add(f"CARTESIAN_POINT('',({','.join(real(x) for x in place)}))")

    def direction(self, way):
        return self.add(f"DIRECTION('',({','.join(real(x) for x in way)}))")

    def axes(self, place=(0, 0, 0), up=(0, 0, 1), right=(1, 0, 0)):
        return self.add(
            f"AXIS2_PLACEMENT_3D('',#{self.point(place)},#{self.direction(up)},#{self.direction(right)})"
        )

    def vertex(self, place):
        return self.add(f"VERTEX_POINT('',#{self.point(place)})")

    def straight(self, begin, end, places):
        way = [b - a for a, b in zip(places[begin], places[end], strict=True)]
        vector = self.add(f"VECTOR('',#{self.direction(way)},1.)")
        line = self.add(f"LINE('',#{self.point(places[begin])},#{vector})")
        return self.add(f"EDGE_CURVE('',#{begin},#{end},#{line},.T.)")

    def face(self, surface, sides, same=".T."):
        """Give a face with one bound; sides are pairs of an edge and whether it is run forwards."""
        oriented = [
            self.add(f"ORIENTED_EDGE('',*,*,#{edge},{'.T.' if ahead else '.F.'})") for edge, ahead in sides
        ]
        loop = self.add(f"EDGE_LOOP('',({','.join(f'#{n}' for n in oriented)}))")
        bound = self.add(f"FACE_OUTER_BOUND('',#{loop},.T.)")
        return self.add(f"ADVANCED_FACE('',(#{bound}),#{surface},{same})")

    def solid(self, faces):
        shell = self.add(f"CLOSED_SHELL('',({','.join(f'#{n}' for n in faces)}))")
        return self.add(f"MANIFOLD_SOLID_BREP('',#{shell})")

    def box(self, x, y, z):
        places = {}
        corner = {}
        for n in range(8):
            place = (x * (n & 1), y * (n >> 1 & 1), z * (n >> 2 & 1))
            corner[n] = self.vertex(place)
            places[corner[n]] = place
        edges = {}

        def side(a, b):
            key = (min(a, b), max(a, b))
            if key not in edges:
                edges[key] = self.straight(corner[key[0]], corner[key[1]], places)
            return edges[key], (a, b) == key

        faces = []
        sides = [
            ((0, 2, 3, 1), (0, 0, -1)), ((4, 5, 7, 6), (0, 0, 1)), ((0, 1, 5, 4), (0, -1, 0)),
            ((2, 6, 7, 3), (0, 1, 0)), ((0, 4, 6, 2), (-1, 0, 0)), ((1, 3, 7, 5), (1, 0, 0)),
        ]  # fmt: skip
        for ring, way in sides:
            right = (0, 1, 0) if way[0] else (1, 0, 0)
            plane = self.add(f"PLANE('',#{self.axes(places[corner[ring[0]]], way, right)})")
            faces.append(
                self.face(plane, [side(a, b) for a, b in zip(ring, ring[1:] + ring[:1], strict=True)])
            )
        return self.solid(faces)

    def cylinder(self, radius, height):
        low, high = self.vertex((radius, 0, 0)), self.vertex((radius, 0, height))
        seam = self.straight(low, high, {low: (radius, 0, 0), high: (radius, 0, height)})
        rims = []
        for corner, z in ((low, 0), (high, height)):
            circle = self.add(f"CIRCLE('',#{self.axes((0, 0, z))},{real(radius)})")
            rims.append(self.add(f"EDGE_CURVE('',#{corner},#{corner},#{circle},.T.)"))
        wall = self.add(f"CYLINDRICAL_SURFACE('',#{self.axes()},{real(radius)})")
        floor = self.add(f"PLANE('',#{self.axes((0, 0, 0), (0, 0, -1))})")
        top = self.add(f"PLANE('',#{self.axes((0, 0, height))})")
        return self.solid(
            [
                self.face(wall, [(rims[0], True), (seam, True), (rims[1], False), (seam, False)]),
                self.face(floor, [(rims[0], False)]),
                self.face(top, [(rims[1], True)]),
            ]
        )

    def product(self, name, items, kind="ADVANCED_BREP_SHAPE_REPRESENTATION"):
        """Name a part or an assembly; gives its definition, its representation and its own axes."""
        own = self.axes()
        listed = ",".join(f"#{n}" for n in (own, *items))
        shape = self.add(f"{kind}('{name}',({listed}),#{self.context})")
        world = self.add(f"PRODUCT_CONTEXT('',#{self.application},'mechanical')")
        product = self.add(f"PRODUCT('{name}','{name}','',(#{world}))")
        formation = self.add(f"PRODUCT_DEFINITION_FORMATION('','',#{product})")
        stage = self.add(f"PRODUCT_DEFINITION_CONTEXT('part definition',#{self.application},'design')")
        definition = self.add(f"PRODUCT_DEFINITION('design','',#{formation},#{stage})")
        given = self.add(f"PRODUCT_DEFINITION_SHAPE('','',#{definition})")
        self.add(f"SHAPE_DEFINITION_REPRESENTATION(#{given},#{shape})")
        return definition, shape, own

    def put(self, part, whole, place, number):
        """Place a part in an assembly by the axes given."""
        use = self.add(
            f"NEXT_ASSEMBLY_USAGE_OCCURRENCE('{number}','part {number}','',#{whole[0]},#{part[0]},$)"
        )
        given = self.add(f"PRODUCT_DEFINITION_SHAPE('','',#{use})")
        moved = self.add(f"ITEM_DEFINED_TRANSFORMATION('','',#{part[2]},#{place})")
        tie = self.add(
            f"(REPRESENTATION_RELATIONSHIP('','',#{part[1]},#{whole[1]})"
            f"REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION(#{moved})SHAPE_REPRESENTATION_RELATIONSHIP())"
        )
        self.add(f"CONTEXT_DEPENDENT_SHAPE_REPRESENTATION(#{tie},#{given})")

    def text(self):
        return HEADER.format(lines="\n".join(f"#{n}={text};" for n, text in enumerate(self.lines, 1)))

    def save(self, path):
        Path(path).write_text(self.text())
        return Path(path)


def real(number):
    """Write a number as STEP wants it: with a point."""
    text = repr(float(number))
    return text.replace("e", "E") if "e" in text else text


def box_file(sides, unit="mm"):
    file = StepFile(unit)
    file.product("box", [file.box(*sides)])
    return file


def cylinder_file(radius, height, unit="mm"):
    file = StepFile(unit)
    file.product("cylinder", [file.cylinder(radius, height)])
    return file


def assembly_file(sides, shift, unit="mm"):
    """The same box twice: once as drawn, once turned a quarter about z and moved by shift."""
    file = StepFile(unit)
    part = file.product("box", [file.box(*sides)])
    first, second = file.axes(), file.axes(shift, (0, 0, 1), (0, 1, 0))
    whole = file.product("two boxes", [first, second], "SHAPE_REPRESENTATION")
    file.put(part, whole, first, 1)
    file.put(part, whole, second, 2)
    return file
