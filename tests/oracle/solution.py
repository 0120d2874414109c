"""Exact answers for one combination of applied elements, by SymPy over the rationals."""

from sympy import QQ
from sympy.polys.matrices import DomainMatrix

import equations
from equations import shaft, slip, spin


class Train:
    """A scenario with its equations, ready to be asked about combinations."""

    def __init__(self, scenario):
        self.scenario = scenario
        self.unknowns = equations.unknowns(scenario)
        self.columns = {name: index for index, name in enumerate(self.unknowns)}
        # The equations of the meshes alone, in reduced form: every combination starts there.
        self.rows, pivots = self._reduced(
            [
                {self.columns[name]: QQ(value) for name, value in equation.items()}
                for equation in equations.of_train(scenario)
            ]
        )
        self.rank = len(pivots)

    def _reduced(self, rows):
        """The reduced row echelon form of `rows` and its pivot columns.

        One column more than there are unknowns: the last one is the right-hand side.
        """
        shape = (len(rows), len(self.unknowns) + 1)
        entries = {index: row for index, row in enumerate(rows) if row}
        reduced, pivots = DomainMatrix(entries, shape, QQ).rref()
        found = [{} for _ in pivots]
        for (row, column), value in reduced.to_dok().items():
            found[row][column] = value
        return found, pivots

    def solve(self, applied):
        """What the elements whose ids are in `applied` make of the train, as plain data."""
        elements = self.scenario.get("elements", [])
        closed = [
            {self.columns[slip(element)]: QQ(1)}
            for element in elements
            if element["id"] in applied
        ]
        held, held_pivots = self._reduced(self.rows + closed)
        rank = len(held_pivots)

        constant = len(self.unknowns)
        turned = {
            self.columns[shaft(self.scenario["input"])]: QQ(1),
            constant: QQ(1),
        }
        rows, pivots = self._reduced(held + [turned])
        tied_up = constant in pivots
        if tied_up:
            # No motion turns the input: what is left is the motions with it at rest.
            rows, pivots = held, held_pivots

        value = self._reader(rows, pivots)
        output = value(shaft(self.scenario["output"]))
        surplus = len(closed) - (rank - self.rank)
        if tied_up:
            state = "tied-up"
        elif output is None:
            state = "neutral"
        elif output == 0:
            state = "output-held"
        else:
            state = "over-applied" if surplus else "driving"
        return {
            "applied": [x["id"] for x in elements if x["id"] in applied],
            "state": state,
            "ratio": text(1 / output) if state in ("driving", "over-applied") else None,
            "degreesOfFreedom": len(self.unknowns) - rank,
            "surplus": surplus,
            "shafts": {
                item["id"]: text(value(shaft(item["id"])))
                for item in self.scenario["shafts"]
            },
            "slips": {item["id"]: text(value(slip(item))) for item in elements},
            "spins": {
                item["id"]: [
                    text(value(spin(item, row)))
                    for row in range(equations.pinion_rows(item))
                ]
                for item in self.scenario["couplings"]
            },
        }

    def _reader(self, rows, pivots):
        """A function from unknown to its value, or to None where it is not determined."""
        constant = len(self.unknowns)
        row_of = {pivot: row for pivot, row in zip(pivots, rows)}

        def value(name):
            pivot = self.columns[name]
            row = row_of.get(pivot)
            if row is None or any(column not in (pivot, constant) for column in row):
                return None
            return row.get(constant, QQ(0))

        return value


def text(value):
    """A rational as numerator/denominator, None as it is."""
    return None if value is None else f"{value.numerator}/{value.denominator}"


def chart(scenario, answers):
    """Steps and spread of the range chart, from the answers of the ranges in order.

    A step is the ratio of a range over that of the next one with another ratio, where both drive
    forwards; the spread is the largest forward ratio over the smallest.
    """

    def ratio(answer):
        if answer["ratio"] is None:
            return None
        return QQ(*(int(part) for part in answer["ratio"].split("/")))

    ratios = [ratio(answer) for answer in answers]

    def following_other(at):
        return next((x for x in ratios[at + 1 :] if x != ratios[at]), None)

    steps = [
        text(this / following)
        if this is not None and following is not None and this > 0 and following > 0
        else None
        for this, following in zip(ratios, map(following_other, range(len(ratios))))
    ]
    forward = [x for x in ratios if x is not None and x > 0]
    spread = text(max(forward) / min(forward)) if len(forward) > 1 else None
    return {
        "ranges": [item["id"] for item in scenario.get("ranges", [])],
        "steps": steps,
        "spread": spread,
    }
