"""How one-way clutches settle, by trying every set of them that could lock.

A set agrees when each locked one passes a torque that it can pass, and each of the others
overruns the way it can, or stands still. Coasting turns every torque round. Sets that leave the
same motion stand side by side: all of theirs lock, and how they share the torque is undetermined.
"""

from itertools import combinations

from sympy import QQ

import virtual_work
from equations import slip


def one_ways(scenario):
    """The one-way clutches of a train."""
    return [x for x in scenario.get("elements", []) if x["kind"] == "one-way"]


def settle(train, applied, coasting=False):
    """(verdict, ids of everything that is closed) of the elements in `applied`."""
    candidates = one_ways(train.scenario)
    # A motion each, with everything closed in any of the sets that give it.
    agreeing = []
    for count in range(len(candidates) + 1):
        for locked in combinations(candidates, count):
            closed = set(applied) | {item["id"] for item in locked}
            if not _agrees(train, closed, locked, coasting):
                continue
            speeds = train.solve(closed)["shafts"]
            for found, together in agreeing:
                if found == speeds:
                    together |= closed
                    break
            else:
                agreeing.append((speeds, closed))
    if len(agreeing) == 1:
        return "settled", agreeing[0][1]
    if agreeing:
        return "ambiguous", set(applied)
    drives = train.solve(applied)["ratio"] is not None
    return ("contradictory" if drives else "settled"), set(applied)


def _agrees(train, closed, locked, coasting):
    answer = train.solve(closed)
    if answer["ratio"] is None:
        return False
    ratio = _rational(answer["ratio"])
    torques = virtual_work.torques(train.scenario, closed, ratio)["elements"]
    for item in one_ways(train.scenario):
        # Speed of the shaft past the other body that it allows, and torque on the other body
        # that it passes: both away from the way it locks.
        free = 1 if item["locks"] == "backward" else -1
        if item in locked:
            torque = torques[item["id"]]
            if torque is None:
                return False
            # The shaft is pushed the free way, the other body the locked way.
            pushed = torque if coasting else -torque
            if pushed * free <= 0:
                return False
        else:
            speed = answer["slips"][slip(item)[1]]
            if speed is None or _rational(speed) * free < 0:
                return False
    return True


def _rational(text):
    return QQ(*(int(part) for part in text.split("/")))
