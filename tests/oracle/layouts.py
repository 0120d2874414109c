"""All layouts of small classes and their best teeth, by trying everything.

Every member is put on every body, every set of pairs of bodies gets elements, every row of their
combinations is tried as ranges with every tooth count, in doubles. Which layouts are the same is
decided by renaming: all orders of the sets, all numbers of the shafts. Nothing is left out early,
but for what the definition of a layout leaves out. Whether shafts nest is asked of NetworkX
(nesting.py).
"""

import itertools

import numpy

import nesting

# Sun, carrier, ring; rows by Willis: (coefficient without k, coefficient of k) of each member.
ROWS = {
    "planetary": [((1, 0), (-1, -1), (0, 1))],
    "double-pinion": [((1, 0), (-1, 1), (0, -1))],
}
HOUSING, INPUT, OUTPUT = 0, 1, 2

def _class(name, sets, applied, elements, forward, reverse, tolerance):
    return {
        "name": name,
        "sets": sets,
        "applied": applied,
        "elements": elements,
        "forward": forward,
        "reverse": reverse,
        "tolerance": tolerance,
    }


PLAIN, DOUBLE = "planetary", "double-pinion"
CLASSES = [
    _class("one set, each range with one element", [PLAIN], 1, 2, [3.2, 1.0], None, 0.15),
    _class("one set, four elements", [PLAIN], 2, 4, [3.4, 1.0], -2.4, 0.1),
    _class("one double-pinion set", [DOUBLE], 2, 4, [1.73, 1.0], None, 0.2),
    _class("two sets, each range with one element", [PLAIN, PLAIN], 1, 3, [4.5, 2.0], None, 0.1),
    _class("two sets of two kinds", [DOUBLE, PLAIN], 1, 2, [2.53], -2.47, 0.1),
    _class("two sets, three elements", [PLAIN, PLAIN], 2, 3, [3.07, 1.63], None, 0.05),
]
TEETH, PINION_TEETH, PINIONS = (18, 48), (12, 30), 3


def cuts(kind):
    """Tooth ratios, with equal spacing and pins without profile shift."""
    found = set()
    for sun in range(TEETH[0], TEETH[1] + 1):
        for ring in range(sun + 1, TEETH[1] + 1):
            if kind == "planetary":
                pinion, odd = divmod(ring - sun, 2)
                fits = not odd and PINION_TEETH[0] <= pinion <= PINION_TEETH[1]
                if fits and (sun + ring) % PINIONS == 0:
                    found.add(ring / sun)
            elif (ring - sun) % PINIONS == 0:
                # Two pinions side by side, neither of which reaches from sun to ring.
                room = min(PINION_TEETH[1], -(-(ring - sun) // 2) - 1)
                if room >= PINION_TEETH[0]:
                    found.add(ring / sun)
    return sorted(found)


def renamed(bodies, elements, order, names):
    """The layout with its sets in another order and its bodies with other names."""
    moved = tuple(names[bodies[member]] for member in order)
    pairs = sorted(tuple(sorted((names[a], names[b]))) for a, b in elements)
    return moved, tuple(pairs)


class Class:
    """The layouts of one ask."""

    def __init__(self, ask):
        self.ask = ask
        self.kinds = sorted(ask["sets"])
        self.members = 3 * len(self.kinds)
        rows = sum(len(ROWS[kind]) for kind in self.kinds)
        self.shafts = rows + ask["applied"] + 1
        self.bodies = range(self.shafts + 1)
        self.cuts = [cuts(kind) for kind in self.kinds]
        mesh = numpy.meshgrid(*self.cuts, indexing="ij")
        self.teeth = [ratios.ravel() for ratios in mesh]

    def orders(self):
        """All orders of the sets in which each kind stays where it is."""
        count = range(len(self.kinds))
        for order in itertools.permutations(count):
            if all(self.kinds[a] == self.kinds[b] for a, b in zip(order, count)):
                yield [3 * place + member for place in order for member in range(3)]

    def names(self):
        """All ways of numbering the shafts beside input and output."""
        for order in itertools.permutations(range(3, self.shafts + 1)):
            yield (HOUSING, INPUT, OUTPUT, *order)

    def first(self, bodies, elements=()):
        """What all layouts that are the same as this one have in common."""
        ways = itertools.product(self.orders(), self.names())
        return min(renamed(bodies, elements, *way) for way in ways)

    def frames(self):
        """Each way of joining the members once."""
        found = set()
        for bodies in itertools.product(self.bodies, repeat=self.members):
            sets = [bodies[at : at + 3] for at in range(0, self.members, 3)]
            locked = any(len(set(members)) < 3 for members in sets)
            if not locked and set(range(3, self.shafts + 1)) <= set(bodies):
                found.add(self.first(bodies)[0])
        return sorted(found)

    def ratios(self, bodies, joined):
        """The ratio for all teeth; nothing where the output stands or more than one motion is left."""
        columns = self.shafts
        count = len(self.teeth[0])
        matrix = numpy.zeros((count, columns, columns))
        right = numpy.zeros((count, columns, 1))
        row = 0
        for place, kind in enumerate(self.kinds):
            for mesh in ROWS[kind]:
                for member, (plain, sloping) in enumerate(mesh):
                    body = bodies[3 * place + member]
                    if body != HOUSING:
                        matrix[:, row, body - 1] += plain + sloping * self.teeth[place]
                row += 1
        for a, b in joined:
            for body, sign in ((a, 1), (b, -1)):
                if body != HOUSING:
                    matrix[:, row, body - 1] += sign
            row += 1
        matrix[:, row, INPUT - 1] = 1
        right[:, row, 0] = 1
        usable = numpy.abs(numpy.linalg.det(matrix)) > 1e-9
        speeds = numpy.full(count, numpy.nan)
        if usable.any():
            speeds[usable] = numpy.linalg.solve(matrix[usable], right[usable])[:, OUTPUT - 1, 0]
        speeds[numpy.abs(speeds) < 1e-9] = numpy.nan
        return 1 / speeds

    def works(self, bodies, joined, left_out, k):
        """Whether an element carries torque: without it the output's speed is not decided."""
        rows = []
        for place, kind in enumerate(self.kinds):
            for mesh in ROWS[kind]:
                row = numpy.zeros(self.shafts + 1)
                for member, (plain, sloping) in enumerate(mesh):
                    row[bodies[3 * place + member]] += plain + sloping * k[place]
                rows.append(row[1:])
        for pair in joined:
            if pair != left_out:
                row = numpy.zeros(self.shafts + 1)
                row[pair[0]], row[pair[1]] = 1, -1
                rows.append(row[1:])
        given = numpy.zeros(self.shafts)
        given[INPUT - 1] = 1
        rows.append(given)
        wanted = numpy.zeros(self.shafts)
        wanted[OUTPUT - 1] = 1
        matrix = numpy.array(rows)
        rank = numpy.linalg.matrix_rank(matrix, tol=1e-9)
        return numpy.linalg.matrix_rank(numpy.vstack([matrix, wanted]), tol=1e-9) > rank

    def depends(self, values):
        """On which sets ratios depend, by whether they change along each."""
        shape = [len(own) for own in self.cuts]
        used = set()
        for ratio in values:
            table = ratio.reshape(shape)
            for axis in range(len(shape)):
                spread = numpy.nanmax(table, axis=axis) - numpy.nanmin(table, axis=axis)
                if numpy.nanmax(spread) > 1e-9:
                    used.add(axis)
        return used

    def best(self, bodies, elements):
        """How far the ratio that is off most is off with the best teeth, and nothing if out of bounds."""
        ask, found = self.ask, None
        wanted = ask["forward"] + [ask["reverse"]] * (ask["reverse"] is not None)
        choices = list(itertools.combinations(elements, ask["applied"]))
        known = {choice: self.known(bodies, choice) for choice in choices}
        for ranges in itertools.permutations(choices, len(wanted)):
            if set(sum(ranges, ())) != set(elements):
                continue
            forward = ranges[: len(ask["forward"])]
            pairs = zip(forward, forward[1:])
            if any(len(set(a) & set(b)) != ask["applied"] - 1 for a, b in pairs):
                continue
            values = [known[choice] for choice in ranges]
            if any(numpy.isnan(value).all() for value in values):
                continue
            if len(self.depends(values)) < len(self.kinds):
                continue
            errors = [numpy.abs(value / want - 1) for value, want in zip(values, wanted)]
            worst = numpy.max(errors, axis=0)
            for one, other in zip(values, values[1 : len(forward)]):
                worst = numpy.where(one >= other, worst, numpy.nan)
            worst[~(worst <= ask["tolerance"] * (1 + 1e-12))] = numpy.nan
            if numpy.isnan(worst).all():
                continue
            at = numpy.nanargmin(worst)
            k = [teeth[at] for teeth in self.teeth]
            works = {
                pair for joined in ranges for pair in joined if self.works(bodies, joined, pair, k)
            }
            if works == set(elements) and (found is None or worst[at] < found):
                found = float(worst[at])
        return found

    def known(self, bodies, choice):
        key = (bodies, choice)
        if key not in self.memory:
            self.memory[key] = self.ratios(bodies, choice)
        return self.memory[key]

    def layouts(self, frames):
        """Each layout that gives the ratios, with how far they are off."""
        pairs = [
            (a, b)
            for a, b in itertools.combinations(self.bodies, 2)
            if (a, b) not in ((HOUSING, INPUT), (HOUSING, OUTPUT))
        ]
        found = {}
        for bodies in frames:
            self.memory = {}
            for count in range(self.ask["applied"], self.ask["elements"] + 1):
                for elements in itertools.combinations(pairs, count):
                    ends = list(bodies) + [end for pair in elements for end in pair]
                    alone = any(ends.count(body) < 2 for body in range(3, self.shafts + 1))
                    if alone or INPUT not in ends or OUTPUT not in ends:
                        continue
                    layout = self.first(bodies, elements)
                    if layout in found:
                        continue
                    error = self.best(bodies, elements)
                    if error is not None and self.nests(bodies, elements):
                        found[layout] = error
        return found

    def nests(self, bodies, elements):
        ids = ["housing", "in", "out", *(f"x{body}" for body in range(3, self.shafts + 1))]
        couplings = []
        for place, kind in enumerate(self.kinds):
            sun, carrier, ring = (ids[body] for body in bodies[3 * place : 3 * place + 3])
            gears = {"sun": {"shaft": sun}, "ring": {"shaft": ring}, "carrier": carrier}
            couplings.append({"kind": kind, "id": f"p{place}"} | gears)
        placed = []
        for number, (a, b) in enumerate(elements):
            ends = {"shaft": ids[b]} if a == HOUSING else {"between": [ids[a], ids[b]]}
            placed.append({"id": f"e{number}"} | ends)
        train = {"input": "in", "output": "out", "couplings": couplings, "elements": placed}
        return nesting.nests(train)


def case(ask):
    """A case of the tests."""
    own = Class(ask)
    frames = own.frames()
    crossing = sum(not own.nests(bodies, ()) for bodies in frames)
    found = own.layouts(frames)
    asked = {
        "sets": ask["sets"],
        "applied": ask["applied"],
        "elements": ask["elements"],
        "forward": [{"ratio": x, "tolerance": ask["tolerance"]} for x in ask["forward"]],
        "teeth": TEETH,
        "pinion_teeth": PINION_TEETH,
        "pinions": [PINIONS],
        "rules": ["coaxial", "equal-spacing"],
    }
    if ask["reverse"] is not None:
        asked["backward"] = {"ratio": ask["reverse"], "tolerance": ask["tolerance"]}
    return {
        "name": ask["name"],
        "ask": asked,
        "frames": len(frames),
        "crossing": crossing,
        "errors": sorted(found.values()),
    }
