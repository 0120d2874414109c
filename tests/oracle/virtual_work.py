"""Ideal torques by virtual work, one connection at a time.

The train delivers through one connection fewer: an applied element is released, or a member is
cut from its shaft. In any motion that this allows the work of the outside torques and of the
torque T the connection passed add up to nothing (ideal meshes do no work):

    T_in * w_in + T_out * w_out = T * (w_before - w_behind)

With the input torque one and T_out = -ratio, a single motion in which the connection slips gives
T. No equilibrium of shafts is set up here. Where the connection cannot slip although it is
released, others hold as well, and its share is not determined: None.
"""

from sympy import QQ
from sympy.polys.matrices import DomainMatrix

import equations
from equations import HOUSING, shaft, slip

CUT = ("cut",)
ROLES = {
    "planetary": ("sun", "carrier", "ring"),
    "double-pinion": ("sun", "carrier", "ring"),
    "stepped": ("sun", "carrier", "ring"),
    "stepped-suns": ("first_sun", "carrier", "second_sun"),
    "ravigneaux": ("small_sun", "large_sun", "carrier", "ring"),
    "gear-pair": ("first", "frame", "second"),
}


def body_of(coupling, role):
    """The unknown speed of what a member is on."""
    if role == "frame":
        return HOUSING
    place = coupling[role]
    return shaft(place if role == "carrier" else place["shaft"])


def torques(scenario, applied, ratio):
    """Torque of every element and member with `applied` closed, as rationals or None.

    An element passes its torque from its first end to its second; a member's acts from its
    shaft on the set.
    """
    closed = [x for x in scenario.get("elements", []) if x["id"] in applied]
    elements = {
        item["id"]: _passed(scenario, ratio, [x for x in closed if x is not item], slip(item))
        if item["id"] in applied
        else QQ(0)
        for item in scenario.get("elements", [])
    }
    members = {
        coupling["id"]: [
            _passed(scenario, ratio, closed, None, (coupling, role))
            for role in ROLES[coupling["kind"]]
        ]
        for coupling in scenario["couplings"]
    }
    return {"elements": elements, "members": members}


def answer(scenario, applied, ratio):
    """The torques as plain data; None without a ratio."""
    if ratio is None:
        return None
    value = QQ(*(int(part) for part in ratio.split("/")))
    found = torques(scenario, applied, value)
    return {
        "output": _text(-value),
        "elements": {name: _text(x) for name, x in found["elements"].items()},
        "members": {name: [_text(x) for x in all] for name, all in found["members"].items()},
    }


def _text(value):
    return None if value is None else f"{value.numerator}/{value.denominator}"


def _passed(scenario, ratio, closed, slipping, cut=None):
    rows = equations.of_train(scenario)
    if cut:
        coupling, role = cut
        body = body_of(coupling, role)
        kept = [x for x in scenario["couplings"] if x is not coupling]
        rows = equations.of_train(scenario | {"couplings": kept})
        # Members of a coupling are on different shafts, so this renames this member alone.
        rows += [
            {CUT if name == body else name: value for name, value in row.items()}
            for row in equations.of_coupling(coupling)
        ]
    rows += [{slip(item): 1} for item in closed]
    unknowns = equations.unknowns(scenario) + [CUT]
    columns = {name: index for index, name in enumerate(unknowns)}
    constant = len(unknowns)
    slips = {columns[body]: QQ(1), columns[CUT]: QQ(-1)} if cut else {columns[slipping]: QQ(1)}
    table = [{columns[x]: QQ(value) for x, value in row.items()} for row in rows if row]
    table.append(slips | {constant: QQ(1)})
    shape = (len(table), constant + 1)
    reduced, pivots = DomainMatrix(dict(enumerate(table)), shape, QQ).rref()
    if constant in pivots:
        return None
    # What the motion leaves open is taken to stand still.
    speeds = {
        pivot: entries.get(constant, QQ(0))
        for pivot, entries in zip(pivots, _rows(reduced, len(pivots)))
    }
    speed = {
        end: speeds.get(columns[shaft(scenario[end])], QQ(0))
        for end in ("input", "output")
    }
    return speed["input"] - ratio * speed["output"]


def _rows(matrix, count):
    found = [{} for _ in range(count)]
    for (row, column), value in matrix.to_dok().items():
        found[row][column] = value
    return found
