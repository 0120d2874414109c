"""Trains with more than one source or output, by SymPy.

Speeds: the null space of the equations mesh by mesh of `equations.py`, pinions among the unknowns, says which
speeds can be chosen and what the others are in them. Torques: by virtual work, without any equilibrium of shafts: in every motion
that the train allows the work of all torques from outside is zero; that of an applied element likewise, in the motions of the
train with that element released.
"""

from sympy import QQ
from sympy.polys.matrices import DomainMatrix

import equations
import random_trains
from equations import HOUSING, shaft

RANDOM_TRAINS = 400


def _null_space(rows, unknowns):
    """Motions as rows, all unknowns as columns."""
    columns = {name: index for index, name in enumerate(unknowns)}
    table = [{columns[x]: QQ(value) for x, value in row.items()} for row in rows if row]
    matrix = DomainMatrix(dict(enumerate(table)), (len(table), len(unknowns)), QQ)
    return matrix.to_field().nullspace().to_dense().to_list()


def _motions(scenario, closed):
    """Speeds of all bodies in each motion of a basis, by name."""
    rows = equations.of_train(scenario) + [{equations.slip(item): 1} for item in closed]
    unknowns = equations.unknowns(scenario)
    return [dict(zip(unknowns, motion)) for motion in _null_space(rows, unknowns)]


def _rank(rows):
    if not rows or not rows[0]:
        return 0
    return DomainMatrix(rows, (len(rows), len(rows[0])), QQ).rank()


def _greedy(wanted, row_of):
    """The first of `wanted` whose rows do not depend on those before."""
    given = []
    for name in wanted:
        if _rank([row_of(x) for x in given + [name]]) > len(given):
            given.append(name)
    return given


def _solved(row, basis):
    """The factors of the rows of `basis`, which are independent, in a row; None where it is not in their span."""
    if not basis:
        return [] if not any(row) else None
    width = len(row)
    if width == 0:
        return [QQ(0)] * len(basis)
    table = [[line[column] for line in basis] + [row[column]] for column in range(width)]
    reduced, pivots = DomainMatrix(table, (width, len(basis) + 1), QQ).rref()
    if len(basis) in pivots:
        return None
    lines = reduced.to_list()
    return [lines[at][len(basis)] for at in range(len(basis))]


def _texts(values):
    return None if values is None else [f"{x.numerator}/{x.denominator}" for x in values]


def answer(scenario, applied, ports, speeds_wanted, torques_wanted):
    """Which speeds and torques can be given in this order, and all others in them."""
    closed = [x for x in scenario["elements"] if x["id"] in applied]
    motions = _motions(scenario, closed)

    def row_of(name):
        return [motion[shaft(name)] for motion in motions]

    names = [item["id"] for item in scenario["shafts"]]
    given = _greedy(speeds_wanted, row_of)
    basis = [row_of(name) for name in given]
    freedom = _rank([row_of(name) for name in names])

    # Torques from outside that do no work in any motion.
    work = [[motion[shaft(name)] for name in ports] for motion in motions]
    count = len(ports)
    balanced = (
        DomainMatrix(work, (len(work), count), QQ).nullspace().to_list()
        if work
        else [[QQ(int(i == j)) for j in range(count)] for i in range(count)]
    )

    def torque_of(port):
        return [torques[port] for torques in balanced]

    given_torques = _greedy(torques_wanted, torque_of)
    torque_basis = [torque_of(port) for port in given_torques]
    torques = [_solved(torque_of(port), torque_basis) for port in range(count)]
    return {
        "freedom": freedom,
        "given": given,
        "speeds": {name: _texts(_solved(row_of(name), basis)) for name in names},
        "givenTorques": given_torques,
        "torques": [_texts(x) for x in torques],
        "elements": {
            item["id"]: _texts(_passed(scenario, closed, item, ports, torques, len(given_torques)))
            for item in scenario["elements"]
        },
    }


def _passed(scenario, closed, item, ports, torques, count):
    """What an element passes from its first end to its second, in the given torques."""
    if all(item is not x for x in closed):
        return [QQ(0)] * count
    released = _motions(scenario, [x for x in closed if x is not item])
    for motion in released:
        slip = motion[equations.slip(item)]
        if slip:
            # Work from outside is work that the element would take in slipping.
            return [
                sum((torques[at][given] * motion[shaft(name)] for at, name in enumerate(ports)), QQ(0))
                / slip
                for given in range(count)
            ]
    return None


def random_case(number):
    """A train with further sources and outputs, answered for some of its elements applied."""
    draw = random_trains.Draw(f"sources {number}")
    scenario = random_trains.train(f"sources {number}")
    names = [item["id"] for item in scenario["shafts"]]
    start, end = scenario["input"], scenario["output"]
    further = [draw.pick(names) for _ in range(draw.between(1, 2))]
    left = [name for name in names if name not in (start, end)]
    outputs = draw.some(left, min(len(left), draw.between(0, 2)))
    applied = [x["id"] for x in scenario["elements"] if draw.chance(0.3)]
    scenario["sources"] = {
        "further": [{"shaft": name} for name in further],
        "outputs": outputs,
    }
    ports = [start] + further + [end] + outputs
    # Shafts with nothing at them may be turned by hand, too.
    wanted = draw.some(names, min(len(names), draw.between(1, 4)))
    order = draw.some(range(len(ports)), len(ports))
    return {
        "name": f"sources-{number:03}",
        "scenario": scenario,
        "applied": applied,
        "ports": ports,
        "wantedSpeeds": wanted,
        "wantedTorques": order,
    } | answer(scenario, applied, ports, wanted, order)


def cases(pool):
    """All of them."""
    return list(pool.map(random_case, range(RANDOM_TRAINS), chunksize=4))
