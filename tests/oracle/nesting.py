"""Whether the shafts of a train can be nested round one axis, by NetworkX.

Everything is spelled out, where the core argues that less is enough. A set is a wheel: its hub is
where the pins are, its rim has a place for each side from which a member is reached, so a carrier
between sun and ring has two, left and right. A shaft is a tree of regions, the stretches of metal
between its carriers: each carrier joins two of them, from its left place to its right one, and
everything else on the shaft hangs on one region. All ways to do so are tried, and each is a graph
without any choice left. The half-plane is closed by a ring of housing, ends and axis.
"""

import itertools

import networkx

import random_trains

HOUSING = "housing"
SUNS = ("sun", "small_sun", "large_sun", "first_sun", "second_sun")


def _shaft(value):
    return value["shaft"] if isinstance(value, dict) else value


def _wheel(coupling):
    """The rim of a set in order, as (place, shaft), and the places of its carrier."""
    name = coupling["id"]
    suns = [(sun, _shaft(coupling[sun])) for sun in SUNS if sun in coupling]
    carrier = coupling["carrier"]
    left, right = (name, "left"), (name, "right")
    below = [((name, sun), shaft) for sun, shaft in suns]
    if "ring" in coupling:
        ring = [((name, "ring"), _shaft(coupling["ring"]))]
        # From the first sun up the left side, over the ring and down to the last sun.
        rim = below[:1] + [(left, carrier)] + ring + [(right, carrier)] + below[1:]
        return rim, (left, right)
    return below[:1] + [(left, carrier)] + below[1:], (left,)


def _trees(carriers):
    """All trees of regions: pairs of regions, one pair a carrier."""
    count = len(carriers) + 1
    pairs = list(itertools.combinations(range(count), 2))
    for chosen in itertools.permutations(pairs, len(carriers)):
        tree = networkx.Graph(chosen)
        if len(tree) == count and networkx.is_connected(tree):
            yield chosen


def _fixed(scenario):
    """The edges without a choice, and for each shaft its carriers and what else is on it."""
    edges = []
    for first, second in ["HI", "HO", "AI", "AO", "RH", "RI", "RO", "RA"]:
        edges.append((first, second))
    carriers, others = {}, {}

    def hang(shaft, vertex):
        others.setdefault(shaft, []).append(vertex)

    hang(HOUSING, "H")
    hang(scenario["input"], "I")
    hang(scenario["output"], "O")
    for coupling in scenario["couplings"]:
        name = coupling["id"]
        if coupling["kind"] == "gear-pair":
            gears = [(name, 0), (name, 1)]
            edges.append(tuple(gears))
            for gear, side in zip(gears, ("first", "second")):
                hang(_shaft(coupling[side]), gear)
            continue
        rim, places = _wheel(coupling)
        around = [place for place, _ in rim]
        edges += list(zip(around, around[1:] + around[:1]))
        edges += [((name, "hub"), place) for place in around]
        if len(places) == 2:
            carriers.setdefault(coupling["carrier"], []).append(places)
        for place, shaft in rim:
            if len(places) == 1 or place not in places:
                hang(shaft, place)
    for element in scenario.get("elements", []):
        vertex = ("element", element["id"])
        ends = element.get("between") or (
            element["shaft"],
            element.get("against", HOUSING),
        )
        for end in ends:
            hang(end, vertex)
    return edges, carriers, others


def _planar(edges):
    return networkx.check_planarity(networkx.Graph(edges))[0]


def nests(scenario):
    """Whether some choice of regions gives a planar graph."""
    edges, carriers, others = _fixed(scenario)
    choices = []
    for shaft, vertices in others.items():
        for vertex in vertices:
            regions = range(len(carriers.get(shaft, [])) + 1)
            choices.append([(vertex, ("region", shaft, region)) for region in regions])
    # What has the fewest choices first: a graph that crosses spares all that follow it.
    choices.sort(key=len)

    def search(edges, left):
        if not _planar(edges):
            return False
        if not left:
            return True
        step = next((at for at, each in enumerate(left) if len(each) > 1), len(left))
        if step:
            return search(edges + [each[0] for each in left[:step]], left[step:])
        return any(search(edges + [edge], left[1:]) for edge in left[0])

    def trees(edges, shafts):
        if not shafts:
            return search(edges, choices)
        shaft, *rest = shafts
        for tree in _trees(carriers[shaft]):
            more = [
                (place, ("region", shaft, region))
                for places, pair in zip(carriers[shaft], tree)
                for place, region in zip(places, pair)
            ]
            if trees(edges + more, rest):
                return True
        return False

    return trees(edges, list(carriers))


def case(job):
    """A case of the tests."""
    name, scenario = job
    return {"name": name, "scenario": scenario, "nests": nests(scenario)}


RANDOM_TRAINS = 320
MOST_SETS = 4


def random_train(number):
    """A train with so many clutches and brakes, and shared carriers, that many cross."""
    draw = random_trains.Draw(f"nesting {number}")
    scenario = random_trains.train(f"nesting {number}")
    couplings = scenario["couplings"][: draw.between(1, MOST_SETS)]
    shafts = [item["id"] for item in scenario["shafts"]]
    carriers = [x["carrier"] for x in couplings if "carrier" in x]
    for index, coupling in enumerate(couplings):
        if "carrier" not in coupling or draw.chance(0.5):
            continue
        shared = draw.pick(carriers)
        members = (_shaft(coupling[x]) for x in (*SUNS, "ring") if x in coupling)
        if shared not in members:
            couplings[index] = coupling | {"carrier": shared}
    elements = []
    for index in range(draw.between(8, 16)):
        elements.append(random_trains.element(draw, index, shafts, elements))
    return scenario | {"couplings": couplings, "elements": elements, "ranges": []}


def random_case(number):
    """A case drawn at random."""
    return case((f"nesting-{number:03}", random_train(number)))
