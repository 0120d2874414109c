"""The equations of a gear train, one a mesh, straight from the definition of each coupling.

Every quantity the tests ask for is an unknown of its own: the speed of each shaft and of the
housing, the speed of each pinion and its speed about its own pin, the slip of each element.
None of the equations is a combined relation between the members of a set: those must come out
of the elimination, which is what makes this an independent derivation.

An equation is a mapping from unknown to integer coefficient; its sum is zero.
"""

HOUSING = ("housing",)


def shaft(name):
    """The unknown speed of a shaft, or of the housing."""
    return HOUSING if name == "housing" else ("shaft", name)


def slip(element):
    """The unknown speed difference across an element."""
    return ("slip", element["id"])


def spin(coupling, row):
    """The unknown speed of pinion row `row` about its own pin."""
    return ("spin", coupling["id"], row)


def _pinion(coupling, row):
    return ("pinion", coupling["id"], row)


def _sum_of(terms):
    """Collects like terms."""
    equation = {}
    for unknown, coefficient in terms:
        equation[unknown] = equation.get(unknown, 0) + coefficient
    return {unknown: value for unknown, value in equation.items() if value}


def _external(first, second, frame):
    """Two external gears whose axes rest in `frame`.

    Seen from the frame their pitch lines run at one speed and turn the gears opposite ways.
    A gear is (unknown, teeth).
    """
    (a, teeth_a), (b, teeth_b) = first, second
    return _sum_of(
        [(a, teeth_a), (frame, -teeth_a), (b, teeth_b), (frame, -teeth_b)]
    )


def _internal(inner, outer, frame):
    """An external gear inside an internal one: as above, but they turn the same way."""
    (a, teeth_a), (b, teeth_b) = inner, outer
    return _sum_of(
        [(a, teeth_a), (frame, -teeth_a), (b, -teeth_b), (frame, teeth_b)]
    )


def _about_pin(coupling, row, carrier):
    """Defines a pinion's speed about its pin: its own less the carrier's."""
    return _sum_of(
        [(spin(coupling, row), 1), (_pinion(coupling, row), -1), (carrier, 1)]
    )


def pinion_rows(coupling):
    """How many pinions, each with a speed of its own, a coupling has in a group."""
    rows = {"planetary": 1, "double-pinion": 2, "stepped": 1, "stepped-suns": 1,
            "ravigneaux": 2, "gear-pair": 0}
    return rows[coupling["kind"]]


def of_coupling(coupling):
    """The equations of one coupling."""
    if coupling["kind"] == "gear-pair":
        first, second = (
            (shaft(coupling[gear]["shaft"]), coupling[gear]["teeth"])
            for gear in ("first", "second")
        )
        mesh = _internal if coupling["mesh"] == "internal" else _external
        return [mesh(first, second, HOUSING)]

    carrier = shaft(coupling["carrier"])
    if coupling["kind"] == "stepped-suns":
        # Two gears on one pinion: one speed, two tooth counts.
        pinion = _pinion(coupling, 0)
        meshes = [
            _external(
                (shaft(coupling[f"{which}_sun"]["shaft"]), coupling[f"{which}_sun"]["teeth"]),
                (pinion, coupling[f"{which}_pinion"]["teeth"]),
                carrier,
            )
            for which in ("first", "second")
        ]
        return meshes + [_about_pin(coupling, 0, carrier)]
    ring = (shaft(coupling["ring"]["shaft"]), coupling["ring"]["teeth"])
    if coupling["kind"] == "ravigneaux":
        small, large = (
            (shaft(coupling[gear]["shaft"]), coupling[gear]["teeth"])
            for gear in ("small_sun", "large_sun")
        )
        short = (_pinion(coupling, 0), coupling["short"]["teeth"])
        long = (_pinion(coupling, 1), coupling["long"]["teeth"])
        return [
            _external(small, short, carrier),
            _external(short, long, carrier),
            _external(large, long, carrier),
            _internal(long, ring, carrier),
            _about_pin(coupling, 0, carrier),
            _about_pin(coupling, 1, carrier),
        ]
    sun = (shaft(coupling["sun"]["shaft"]), coupling["sun"]["teeth"])
    if coupling["kind"] == "stepped":
        # Two gears on one pinion: one speed, two tooth counts.
        pinion = _pinion(coupling, 0)
        return [
            _external(sun, (pinion, coupling["sun_pinion"]["teeth"]), carrier),
            _internal((pinion, coupling["ring_pinion"]["teeth"]), ring, carrier),
            _about_pin(coupling, 0, carrier),
        ]
    if coupling["kind"] == "planetary":
        pinion = (_pinion(coupling, 0), coupling["pinion"]["teeth"])
        return [
            _external(sun, pinion, carrier),
            _internal(pinion, ring, carrier),
            _about_pin(coupling, 0, carrier),
        ]
    if coupling["kind"] == "double-pinion":
        inner = (_pinion(coupling, 0), coupling["inner"]["teeth"])
        outer = (_pinion(coupling, 1), coupling["outer"]["teeth"])
        return [
            _external(sun, inner, carrier),
            _external(inner, outer, carrier),
            _internal(outer, ring, carrier),
            _about_pin(coupling, 0, carrier),
            _about_pin(coupling, 1, carrier),
        ]
    raise ValueError(f"no equations for a coupling of kind {coupling['kind']!r}")


def of_train(scenario):
    """The equations that hold with every element released, and what slips are."""
    equations = [{HOUSING: 1}]
    for coupling in scenario["couplings"]:
        equations += of_coupling(coupling)
    for element in scenario.get("elements", []):
        if element["kind"] == "brake":
            ends = shaft(element["shaft"]), HOUSING
        elif element["kind"] == "one-way":
            ends = shaft(element["shaft"]), shaft(element["against"])
        else:
            ends = tuple(shaft(end) for end in element["between"])
        equations.append(_sum_of([(slip(element), -1), (ends[0], 1), (ends[1], -1)]))
    return equations


def unknowns(scenario):
    """Every unknown of a train, in a fixed order."""
    names = [HOUSING] + [shaft(item["id"]) for item in scenario["shafts"]]
    for coupling in scenario["couplings"]:
        for row in range(pinion_rows(coupling)):
            names += [_pinion(coupling, row), spin(coupling, row)]
    return names + [slip(element) for element in scenario.get("elements", [])]
