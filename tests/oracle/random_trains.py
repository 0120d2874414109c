"""Gear trains drawn at random from a seed, the same ones everywhere.

They are meant to meet every case of the solver, not to be buildable: shafts are shared at
random, members sit on the housing, elements repeat or contradict each other.
"""

import random


class Draw:
    """Random choices that are the same on every Python version.

    Only `Random.random` is promised to stay the same, so everything is made from it.
    """

    def __init__(self, seed):
        self._random = random.Random(seed)

    def below(self, count):
        return int(self._random.random() * count)

    def between(self, least, most):
        return least + self.below(most - least + 1)

    def chance(self, share):
        return self._random.random() < share

    def pick(self, items):
        return items[self.below(len(items))]

    def some(self, items, count):
        """`count` different items, in random order."""
        left = list(items)
        return [left.pop(self.below(len(left))) for _ in range(count)]


def _teeth(draw):
    # Mostly everyday counts; sometimes the extremes the format allows.
    return draw.between(12, 90) if draw.chance(0.85) else draw.between(6, 999)


def _planetary(draw, base, bodies):
    sun, ring, carrier = draw.some(bodies, 3)
    sun_teeth, pinion = draw.between(12, 60), draw.between(12, 40)
    ring_teeth = sun_teeth + 2 * pinion if draw.chance(0.7) else _teeth(draw)
    return base | {
        "kind": "planetary",
        "sun": {"shaft": sun, "teeth": sun_teeth},
        "ring": {"shaft": ring, "teeth": ring_teeth},
        "carrier": carrier,
        "pinion": {"teeth": pinion, "count": draw.between(1, 12)},
    }


# The central gears and the pinions of each kind of set that has a bare `count`.
_SETS = {
    "double-pinion": (["sun", "ring"], ["inner", "outer"]),
    "stepped": (["sun", "ring"], ["sun_pinion", "ring_pinion"]),
    "stepped-suns": (["first_sun", "second_sun"], ["first_pinion", "second_pinion"]),
    "ravigneaux": (["small_sun", "large_sun", "ring"], ["short", "long"]),
}


def _set(kind):
    gears, pinions = _SETS[kind]

    def build(draw, base, bodies):
        if len(bodies) <= len(gears):
            return _planetary(draw, base, bodies)
        *shafts, carrier = draw.some(bodies, len(gears) + 1)
        central = {
            gear: {"shaft": shaft, "teeth": _teeth(draw)}
            for gear, shaft in zip(gears, shafts)
        }
        return base | central | {
            "kind": kind,
            "carrier": carrier,
            **{pinion: {"teeth": _teeth(draw)} for pinion in pinions},
            "count": draw.between(1, 12),
        }

    return build


def _gear_pair(draw, base, shafts):
    first, second = draw.some(shafts, 2)
    return base | {
        "kind": "gear-pair",
        "mesh": draw.pick(["external", "internal"]),
        "first": {"shaft": first, "teeth": _teeth(draw)},
        "second": {"shaft": second, "teeth": _teeth(draw)},
    }


def _coupling(draw, index, shafts, earlier):
    base = {"id": f"g{index}", "label": f"Gears {index}"}
    if earlier and draw.chance(0.06):
        # The same gears once more: a redundant coupling, or with other teeth one that fights.
        twin = draw.pick(earlier) | base
        if twin["kind"] != "gear-pair" and draw.chance(0.5):
            gear = next(name for name in ("sun", "small_sun", "first_sun") if name in twin)
            twin[gear] = twin[gear] | {"teeth": _teeth(draw)}
        return twin
    bodies = shafts + ["housing"] if draw.chance(0.2) else shafts
    kinds = [_planetary, _planetary] + [_set(kind) for kind in _SETS] + [_gear_pair]
    kind = draw.pick(kinds)
    return kind(draw, base, shafts if kind is _gear_pair else bodies)


def element(draw, index, shafts, earlier):
    """A clutch or brake at random, sometimes one that is there already."""
    base = {"id": f"e{index}", "label": f"Element {index}"}
    if earlier and draw.chance(0.1):
        return draw.pick(earlier) | base
    if draw.chance(0.5):
        return base | {"kind": "brake", "shaft": draw.pick(shafts)}
    return base | {"kind": "clutch", "between": draw.some(shafts, 2)}


def train(number, long=False):
    """Train number `number`; a long one has as many parts as the format allows."""
    draw = Draw(f"levertrain {number}")
    count = draw.between(8, 12) if long else draw.between(1, 5)
    freedom = draw.between(2, 5)
    shafts = [f"s{index}" for index in range(min(24, max(3, count + freedom)))]

    couplings, elements = [], []
    for index in range(count):
        couplings.append(_coupling(draw, index, shafts, couplings))
    for index in range(draw.between(0, 7)):
        elements.append(element(draw, index, shafts, elements))
    start, end = draw.some(shafts, 2)
    ids = [element["id"] for element in elements]
    return {
        "format": 1,
        "name": f"Random train {number}",
        "input": start,
        "output": end,
        "shafts": [{"id": name, "label": f"Shaft {name}"} for name in shafts],
        "couplings": couplings,
        "elements": elements,
        "ranges": [
            {
                "id": f"r{index}",
                "label": f"Range {index}",
                "applied": draw.some(ids, draw.between(0, min(3, len(ids)))),
            }
            for index in range(draw.between(0, 4))
        ],
    }


def chain(number):
    """A set and a long chain of pairs with large tooth counts: exact speeds of many digits.

    The chains get longer with `number`, so that some stay just below what 64 bits hold and
    others go beyond. One link of the chain is a clutch.
    """
    draw = Draw(f"levertrain chain {number}")
    shafts = [f"s{index}" for index in range(6 + number % 8)]
    links = list(zip(shafts[1:], shafts[2:]))
    clutch = links.pop(draw.below(len(links)))
    first_set = {
        "kind": "planetary",
        "id": "p",
        "label": "Set",
        "sun": {"shaft": shafts[0], "teeth": draw.between(300, 499)},
        "ring": {"shaft": "housing", "teeth": draw.between(800, 999)},
        "carrier": shafts[1],
        "pinion": {"teeth": draw.between(100, 250), "count": 3},
    }
    pairs = [
        {
            "kind": "gear-pair",
            "id": f"g{index}",
            "label": f"Pair {index}",
            "mesh": draw.pick(["external", "internal"]),
            "first": {"shaft": first, "teeth": draw.between(900, 999)},
            "second": {"shaft": second, "teeth": draw.between(900, 999)},
        }
        for index, (first, second) in enumerate(links)
    ]
    return {
        "format": 1,
        "name": f"Long chain {number}",
        "input": shafts[0],
        "output": shafts[-1],
        "shafts": [{"id": name, "label": f"Shaft {name}"} for name in shafts],
        "couplings": [first_set] + pairs,
        "elements": [
            {"kind": "clutch", "id": "C", "label": "C", "between": list(clutch)},
            {"kind": "brake", "id": "B", "label": "B", "shaft": draw.pick(shafts)},
            {"kind": "clutch", "id": "D", "label": "D", "between": draw.some(shafts, 2)},
        ],
        "ranges": [{"id": "1", "label": "First", "applied": ["C"]}],
    }


def with_one_ways(number):
    """A train at random in which up to three elements are one-way clutches."""
    scenario = train(f"one-way {number}")
    draw = Draw(f"levertrain one-ways {number}")
    shafts = [item["id"] for item in scenario["shafts"]]
    elements = scenario["elements"]
    while len(elements) < 5:
        elements.append(element(draw, len(elements), shafts, elements))
    for index in draw.some(range(len(elements)), draw.between(1, 3)):
        old = elements[index]
        first, second = old.get("between") or (old["shaft"], "housing")
        elements[index] = {
            "kind": "one-way",
            "id": old["id"],
            "label": old["label"],
            "shaft": first,
            "against": second,
            "locks": draw.pick(["forward", "backward"]),
        }
    ids = [element["id"] for element in elements if element["kind"] != "one-way"]
    ranges = [
        {
            "id": f"r{index}",
            "label": f"Range {index}",
            "applied": draw.some(ids, draw.between(0, len(ids))),
        }
        for index in range(8)
    ]
    return scenario | {"ranges": ranges}
