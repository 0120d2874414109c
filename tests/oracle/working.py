"""Checks the formulas of ratios that it reads from the standard input; a list of what is wrong.

    python tests/oracle/working.py < FORMULAS

Each is compared with the ratio that SymPy derives itself from the equations of the meshes with a
symbol for every tooth count: as quotients of polynomials in lowest terms they must be the same.
Written in numbers, it must be the exact ratio. A train whose meshes only agree for its very tooth
counts has no such ratio. Where there is no formula, SymPy must find none that is short, and
where there is one, it has no more symbols than SymPy's in factors.

    python tests/oracle/working.py --draw FIRST COUNT

writes COUNT trains drawn at random, from number FIRST on, for which formulas may be asked.
"""

import json
import os
import sys
from concurrent.futures import ProcessPoolExecutor

# The folder belongs to the sources: leave no compiled files in it.
sys.dont_write_bytecode = True

from sympy import QQ, Rational, Symbol, factor_list, fraction, sympify  # noqa: E402
from sympy.polys.matrices import DomainMatrix  # noqa: E402

import equations  # noqa: E402
import random_trains  # noqa: E402
from equations import shaft, slip  # noqa: E402

LETTERS = {
    "planetary": {"sun": "S", "ring": "R", "pinion": "P"},
    "double-pinion": {"sun": "S", "ring": "R", "inner": "P", "outer": "Q"},
    "stepped": {"sun": "S", "ring": "R", "sun_pinion": "P", "ring_pinion": "Q"},
    "stepped-suns": {
        "first_sun": "Sa", "second_sun": "Sb", "first_pinion": "P", "second_pinion": "Q",
    },
    "ravigneaux": {"small_sun": "Sa", "large_sun": "Sb", "ring": "R", "short": "P", "long": "Q"},
    "gear-pair": {"first": "Za", "second": "Zb"},
}


def with_symbols(scenario):
    """The scenario with symbols for tooth counts, numbered by coupling."""
    couplings = []
    for number, coupling in enumerate(scenario["couplings"], 1):
        letters = LETTERS[coupling["kind"]].items()
        named = {
            gear: coupling[gear] | {"teeth": Symbol(f"{letter}{number}")}
            for gear, letter in letters
        }
        couplings.append(coupling | named)
    return scenario | {"couplings": couplings}


def symbols_of(scenario):
    gears = (
        coupling[gear]["teeth"]
        for coupling in scenario["couplings"]
        for gear in LETTERS[coupling["kind"]]
    )
    return sorted(gears, key=str)


def ratio(scenario, applied):
    """Input speed over output speed with the elements `applied` closed; None if undecided."""
    elements = [x for x in scenario.get("elements", []) if x["id"] in applied]
    rows = equations.of_train(scenario) + [{slip(item): 1} for item in elements]
    unknowns = equations.unknowns(scenario)
    columns = {name: index for index, name in enumerate(unknowns)}
    start, end = columns[shaft(scenario["input"])], columns[shaft(scenario["output"])]
    # Input and output last: the row that is left with these two alone relates them.
    order = [x for x in range(len(unknowns)) if x not in (start, end)] + [start, end]
    place = {column: index for index, column in enumerate(order)}
    field = QQ.frac_field(*symbols_of(scenario))
    table = {
        index: {place[columns[x]]: field.from_sympy(sympify(v)) for x, v in row.items()}
        for index, row in enumerate(rows)
    }
    reduced, pivots = DomainMatrix(table, (len(rows), len(unknowns)), field).rref()
    last = len(unknowns) - 1
    if last - 1 not in pivots or last in pivots:
        return None
    row = reduced.to_dok().get((pivots.index(last - 1), last))
    # w_in + row * w_out = 0
    return None if row is None else (-row, field)


def length(expression):
    """How many symbols are written in it; a power is written as a product."""
    if expression.is_Symbol:
        return 1
    if expression.is_Pow:
        return abs(int(expression.exp)) * length(expression.base)
    return sum(map(length, expression.args))


def factored_length(expression):
    """The same of numerator and denominator in factors, each a sum of terms."""
    total = 0
    for part in fraction(expression):
        for factor, power in factor_list(part)[1]:
            total += power * length(factor.expand())
    return total


def withheld(item, scenario, expected):
    """What is wrong with not giving a formula that SymPy finds; None if nothing is."""
    counts = {}
    for coupling, named in zip(item["scenario"]["couplings"], scenario["couplings"]):
        for gear in LETTERS[coupling["kind"]]:
            counts[named[gear]["teeth"]] = coupling[gear]["teeth"]
    _, below = fraction(expected)
    if below.subs(counts) == 0:
        # These very counts are the ones for which it says nothing.
        return None
    symbols = factored_length(expected)
    short = symbols <= item["most"]
    return f"none is given ({item['why']}), but {expected} has {symbols} symbols" if short else None


def draw(first, count):
    """Random trains with as many sets as SymPy can do in symbols."""
    number = first
    while count > 0:
        train = random_trains.train(f"formula {number}")
        number += 1
        if len(train["couplings"]) <= 3:
            count -= 1
            yield train


def fault(item):
    """What is wrong with a formula, and whether it was compared in symbols."""
    exact = Rational(item["ratio"])
    if item["numbers"] is not None:
        value = sympify(item["numbers"], rational=True)
        if value != exact:
            return f"{item['numbers']} is {value}, not {exact}", False
    scenario = with_symbols(item["scenario"])
    found = ratio(scenario, item["applied"])
    if found is None:
        return None, False
    expected, field = found
    if item["symbols"] is None:
        return withheld(item, scenario, field.to_sympy(expected)), True
    names = {str(symbol): symbol for symbol in symbols_of(scenario)}
    formula = sympify(item["symbols"], locals=names)
    # Elements of the field are in lowest terms, so the difference needs no simplifying.
    if field.from_sympy(formula) != expected:
        return f"{item['symbols']} is not {field.to_sympy(expected)}", True
    if length(formula) > factored_length(field.to_sympy(expected)):
        return f"{item['symbols']} is longer than in factors", True
    return None, True


def main():
    if sys.argv[1:2] == ["--draw"]:
        json.dump(list(draw(*map(int, sys.argv[2:]))), sys.stdout)
        return
    wrong, compared = [], 0
    items = json.load(sys.stdin)
    with ProcessPoolExecutor(os.cpu_count()) as pool:
        for item, (text, in_symbols) in zip(items, pool.map(fault, items, chunksize=4)):
            compared += in_symbols
            if text:
                wrong.append(f"{item['name']}, {' '.join(item['applied'])}: {text}")
    json.dump({"wrong": wrong, "inSymbols": compared}, sys.stdout)


if __name__ == "__main__":
    main()
