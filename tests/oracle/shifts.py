"""Which combinations drive and which single swaps lie between them, as a graph of NetworkX.

A node is a set of applied elements that drives at one ratio and of which none is to spare, each found by
SymPy for itself; an edge joins two that differ by at most one element released and one applied. Distances
are those of breadth-first search, and the longest row of falling ratios is the longest path of a graph
without cycles.
"""

from fractions import Fraction
from itertools import combinations

import networkx

import random_trains
import solution

RANDOM_TRAINS = 120
# More elements than these take SymPy too long: it solves every set of them.
MOST_ELEMENTS = 6
# Most trains drawn at random have hardly a combination that drives.
FEWEST_NODES = 4
# Steps of a row of ranges, the larger ratio over the smaller.
LEAST, MOST = Fraction(110, 100), Fraction(300, 100)


def _nodes(scenario):
    """What drives with nothing to spare, by the ids applied, with its ratio."""
    train = solution.Train(scenario)
    ids = [element["id"] for element in scenario["elements"]]
    for count in range(len(ids) + 1):
        for applied in combinations(ids, count):
            answer = train.solve(applied)
            if answer["state"] == "driving":
                yield frozenset(applied), Fraction(answer["ratio"])


def _swap(one, other):
    return len(one - other) <= 1 and len(other - one) <= 1


def _row(ratios):
    """How many ranges the longest row of single swaps has whose ratios fall by steps within bounds."""
    falls = networkx.DiGraph()
    falls.add_nodes_from(node for node, ratio in ratios.items() if ratio > 0)
    for one in falls:
        for other in falls:
            if one != other and _swap(one, other) and LEAST <= ratios[one] / ratios[other] <= MOST:
                falls.add_edge(one, other)
    return len(networkx.dag_longest_path(falls))


def case(job):
    """A case of the tests."""
    name, scenario = job
    # A named range is a node whatever it has to spare; here nothing is named.
    scenario = {**scenario, "ranges": []}
    ratios = dict(_nodes(scenario))
    graph = networkx.Graph()
    graph.add_nodes_from(ratios)
    graph.add_edges_from(pair for pair in combinations(ratios, 2) if _swap(*pair))
    away = dict(networkx.all_pairs_shortest_path_length(graph))
    order = sorted(ratios, key=sorted)
    return {
        "name": name,
        "scenario": scenario,
        "nodes": [{"applied": sorted(node), "ratio": str(ratios[node])} for node in order],
        "swaps": [[away[one].get(other) for other in order] for one in order],
        "row": _row(ratios),
    }


def random_case(number):
    """A case of a train drawn at random."""
    for attempt in range(50):
        scenario = random_trains.train(f"shifts {number} {attempt}")
        kinds = [element["kind"] for element in scenario["elements"]]
        if 3 <= len(kinds) <= MOST_ELEMENTS and "one-way" not in kinds:
            drawn = case((f"shifts-{number:03}", scenario))
            if len(drawn["nodes"]) >= FEWEST_NODES:
                return drawn
    raise ValueError(f"no train for number {number}")


def is_small(scenario):
    """Whether a scenario is one that this can answer for."""
    kinds = [element["kind"] for element in scenario.get("elements", [])]
    return len(kinds) <= MOST_ELEMENTS and "one-way" not in kinds
