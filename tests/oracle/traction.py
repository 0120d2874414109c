"""Driving on the road, by SciPy.

Written from the definitions. The engine behind an open converter is looked for at each input speed on a grid of engine speeds
and with `brentq` (the core has it in closed form, cell by cell); fastest speeds and crossings of force curves are found with
`brentq` over the road speed, steepest slopes with `minimize_scalar`; the run from rest is a differential equation over time,
which `solve_ivp` integrates with event functions (the core's is an integral over the road speed).
"""

import math

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, minimize_scalar

import one_way
import operating
import random_trains
import solution

RANDOM_VEHICLES = 150
GRAVITY = 9.80665
RAD_PER_S = math.pi / 30
# Engine speeds, and road speeds, at which signs are looked at.
GRID = 240
EXACT = {"xtol": 1e-13, "rtol": 1e-14, "maxiter": 500}
# A run that has not come to its end by then is not compared.
LONGEST = 20000.0
# As the core assumes them: they are part of what is documented.
ASSUMED = {"wheel_radius": 0.3, "final_drive": 3.5, "engine_inertia": 0.15, "shaft": 0.01, "load_inertia": 9.0}


class Gap(Exception):
    """The engine does not run there."""


class Range:
    """A range that drives: its ratio and efficiency, and the speed of each shaft for a turn of the input."""

    def __init__(self, vehicle, item, ratio, efficiency, speeds):
        self.vehicle, self.id = vehicle, item["id"]
        self.ratio, self.efficiency, self.speeds = ratio, efficiency, speeds
        self.locked = True
        self.table = None

    def input_speed(self, speed):
        return speed / self.vehicle.lever / RAD_PER_S * abs(self.ratio)

    def engine(self, n):
        """(engine speed, torque at the input, what is between) at an input speed."""
        vehicle = self.vehicle
        first, last = vehicle.speeds[0], vehicle.speeds[-1]
        if n > last * (1 + 1e-12):
            raise Gap
        if self.locked:
            if n < first:
                return first, float(vehicle.full(first)), "slipping"
            return n, float(vehicle.full(min(n, last))), "nothing"
        speed = self.settled(n)
        ratio = np.interp(n / speed, vehicle.ratios, vehicle.torque_ratios)
        return speed, float(ratio * vehicle.full(speed)), "converter"

    def settled(self, n):
        vehicle = self.vehicle
        start, last = max(n, vehicle.speeds[0]), vehicle.speeds[-1]
        nodes = np.linspace(start, last, GRID)
        nodes = np.union1d(nodes, [x for x in vehicle.speeds if start < x < last])

        def left_over(speed):
            return vehicle.full(speed) - np.interp(n / speed, vehicle.ratios, vehicle.capacities) * speed**2

        values = left_over(nodes)
        if values[0] < 0:
            raise Gap
        below = np.flatnonzero((values[:-1] >= 0) & (values[1:] < 0))
        if len(below) == 0:
            # At its last speed it may be in balance.
            if abs(values[-1]) < 1e-9 * vehicle.full(last):
                return last
            raise Gap
        at = below[0]
        return brentq(left_over, nodes[at], nodes[at + 1], **EXACT)

    def force(self, speed):
        _, torque, _ = self.engine(self.input_speed(speed))
        return max(torque, 0.0) * abs(self.ratio) * self.efficiency / self.vehicle.lever

    def runs(self, speed):
        try:
            self.engine(self.input_speed(speed))
            return True
        except Gap:
            return False

    def reach(self):
        """The highest road speed that it runs at."""
        top = self.vehicle.speeds[-1] * RAD_PER_S * self.vehicle.lever / abs(self.ratio)
        if self.runs(top * (1 - 1e-13)):
            return top
        low, high = 0.0, top
        for _ in range(200):
            middle = (low + high) / 2
            low, high = (middle, high) if self.runs(middle) else (low, middle)
        return low

    def spare(self, speed):
        return self.force(speed) - self.vehicle.level(speed)

    def mass(self, between):
        vehicle = self.vehicle
        output = self.speeds[vehicle.output]
        rest = vehicle.load_inertia
        for shaft, inertia in vehicle.shafts.items():
            if shaft != vehicle.input and self.speeds[shaft] is not None:
                rest += inertia * (self.speeds[shaft] / output) ** 2
        inner = vehicle.shafts[vehicle.input] + (vehicle.engine_inertia if between == "nothing" else 0.0)
        return (rest + self.efficiency * inner * self.ratio**2) / vehicle.lever**2

    def grid(self, low, high):
        """Speeds at which signs are looked at, with those where the engine is at a point of its curve."""
        unit = RAD_PER_S * self.vehicle.lever / abs(self.ratio)
        knots = [x * unit for x in self.vehicle.speeds if low < x * unit < high]
        return np.union1d(np.linspace(low, high, GRID), knots)

    def top(self):
        """The highest speed that it keeps on the level, and whether that is the engine's last."""
        reach = self.reach()
        nodes = self.grid(0.0, reach * (1 - 1e-13))
        values = np.array([self.spare(x) for x in nodes])
        if values[-1] > 0:
            return reach, True
        falls = np.flatnonzero((values[:-1] > 0) & (values[1:] <= 0))
        if len(falls) == 0:
            return None
        at = falls[-1]
        return brentq(self.spare, nodes[at], nodes[at + 1], **EXACT), False

    def climb(self):
        """The greatest part of the weight that it lifts."""
        nodes = self.grid(0.0, self.reach() * (1 - 1e-13))
        values = [self.spare(x) for x in nodes]
        best = max(values)
        at = values.index(best)
        low, high = nodes[max(at - 1, 0)], nodes[min(at + 1, len(nodes) - 1)]
        inner = minimize_scalar(lambda x: -self.spare(x), bounds=(low, high), method="bounded", options={"xatol": 1e-12})
        return max(best, -inner.fun) / self.vehicle.weight


class Vehicle:
    """A scenario on the road."""

    def __init__(self, scenario, ranges, ask):
        full = np.array(scenario["engine"]["full"], dtype=float)
        self.speeds = list(full[:, 0])
        self.full = operating.linear(full)
        table = scenario.get("converter", {}).get("table", [])
        self.ratios = [s for s, _, _ in table] + [1.0]
        self.torque_ratios = [t for _, t, _ in table] + [1.0]
        self.capacities = [1 / k**2 for _, _, k in table] + [0.0]
        own = ASSUMED | scenario.get("vehicle", {})
        self.lever = own["wheel_radius"] / own["final_drive"]
        self.road = scenario["load"]
        self.weight = self.road["weight"] / self.lever
        dynamics = scenario.get("dynamics", {})
        self.engine_inertia = dynamics.get("engine_inertia", ASSUMED["engine_inertia"])
        by_weight = self.weight / GRAVITY * self.lever**2 or ASSUMED["load_inertia"]
        self.load_inertia = dynamics.get("load_inertia", by_weight)
        self.shafts = {x["id"]: ASSUMED["shaft"] for x in scenario["shafts"]}
        self.shafts |= {x["shaft"]: x["inertia"] for x in dynamics.get("shafts", [])}
        self.input, self.output = scenario["input"], scenario["output"]
        self.ranges = [Range(self, *x) for x in ranges]
        forward = sorted((x for x in self.ranges if x.ratio > 0), key=lambda x: -x.ratio)
        self.order = [x for i, x in enumerate(forward) if i == 0 or x.ratio != forward[i - 1].ratio]
        self.ask = ask
        locked_from = ask["lockedFrom"]
        for item in self.ranges:
            above = len([x for x in self.order if x.ratio > item.ratio]) if item.ratio > 0 else 0
            item.locked = not table or (locked_from is not None and above >= locked_from)

    def level(self, speed):
        n = speed / self.lever / RAD_PER_S
        road = self.road
        return (road["constant"] + road["linear"] * n + road["quadratic"] * n * n) / self.lever

    def follows(self, place, speed):
        """Whether a range of the order can be gone on with."""
        item = self.order[place]
        try:
            _, _, between = item.engine(item.input_speed(speed))
        except Gap:
            return False
        return between != "slipping" and item.spare(speed) > 0

    def leave(self, own, start):
        """(speed, next place) at which a range is left that is driven from a speed on."""
        item, last = self.order[own], self.order[own].reach()
        nodes = item.grid(start, last * (1 - 1e-13))
        found = []
        for place in range(own + 1, len(self.order)) if self.ask["engineSpeed"] is None else []:
            other = self.order[place]

            def gain(speed):
                try:
                    _, _, between = other.engine(other.input_speed(speed))
                except Gap:
                    return -1.0
                return -1.0 if between == "slipping" else other.force(speed) - item.force(speed)

            finer = np.union1d(nodes, other.grid(start, last * (1 - 1e-13)))
            values = np.array([gain(x) for x in finer])
            better = np.flatnonzero(values > 0)
            if len(better):
                at = better[0]
                speed = finer[0] if at == 0 else brentq(gain, finer[at - 1], finer[at], **EXACT)
                found.append((speed, place))
        if self.ask["engineSpeed"] is not None and own + 1 < len(self.order):
            over = lambda x: item.engine(item.input_speed(x))[0] - self.ask["engineSpeed"]
            values = np.array([over(x) for x in nodes])
            rises = np.flatnonzero((values[:-1] < 0) & (values[1:] >= 0))
            if len(rises):
                found.append((brentq(over, nodes[rises[0]], nodes[rises[0] + 1], **EXACT), own + 1))
        found = [x for x in [min(found, default=None)] if x and self.follows(x[1], x[0])]
        if found:
            return found[0]
        at = last * (1 - 1e-13)
        later = [x for x in range(own + 1, len(self.order)) if self.follows(x, at)]
        if not later:
            return None
        if self.ask["engineSpeed"] is not None:
            return last, later[0]
        return last, max(later, key=lambda x: self.order[x].force(at))

    def run(self):
        """Changes and targets as [speed, time, distance], and the end; None without a run."""
        if not self.order or not self.order[0].runs(0.0) or self.order[0].spare(0.0) <= 0:
            return None
        own, state = 0, np.array([0.0, 0.0, 0.0])
        changes, targets = [], []
        while True:
            item = self.order[own]
            left = self.leave(own, state[2])
            until = left[0] if left else item.reach()
            nodes = item.grid(state[2], until * (1 - 1e-13))
            values = np.array([item.spare(x) for x in nodes])
            below = np.flatnonzero(values <= 0)
            balance = None
            if len(below):
                at = below[0]
                balance = nodes[0] if at == 0 else brentq(item.spare, nodes[at - 1], nodes[at], **EXACT)
            wanted = [x for x in self.ask["targets"] if state[2] < x < (balance * (1 - 1e-3) if balance else until)]
            end = max([0.99 * balance, *wanted]) if balance else until
            stops = sorted({*wanted, end} - {x for x in [end] if x <= state[2]})
            for stop in stops:
                state = self.on(item, state, stop)
                if state is None:
                    return None
                if stop in wanted:
                    targets.append([stop, state[0], state[1]])
            if balance:
                return changes, targets, {"speed": balance, "atEngineLimit": False}
            if not left:
                return changes, targets, {"speed": until, "atEngineLimit": True}
            changes.append([*map(float, (until, state[0], state[1])), item.id, self.order[left[1]].id])
            own = left[1]

    def on(self, item, state, stop):
        """Integrates over time until a speed is reached, from one point of the engine's curve to the next."""
        time, distance, speed = state
        unit = RAD_PER_S * self.lever / abs(item.ratio)
        parts = [x * unit for x in self.speeds if speed < x * unit < stop] if item.locked else []
        for part in [*parts, stop]:
            _, _, between = item.engine(item.input_speed(speed + 0.5 * (part - speed)))
            mass = item.mass(between)

            def rates(_, y):
                # A step may try a little more than there is.
                at = min(max(y[1], 0.0), item.top_of_grid)
                return [y[1], item.spare(at) / mass]

            item.top_of_grid = item.reach() * (1 - 1e-13)
            arrives = lambda _, y: y[1] - part
            arrives.terminal, arrives.direction = True, 1
            found = solve_ivp(rates, (0, LONGEST), [distance, speed], method="DOP853", rtol=1e-10, atol=1e-10,
                              events=arrives)
            if not len(found.t_events[0]):
                return None
            time += float(found.t_events[0][0])
            distance, speed = float(found.y_events[0][0][0]), part
        return np.array([time, distance, speed])


def number(rational):
    numerator, denominator = rational.split("/")
    return int(numerator) / int(denominator)


def ranges_of(scenario):
    """The ranges that drive without losses, as `Range` takes them."""
    train = solution.Train(scenario)
    for item in scenario["ranges"]:
        _, closed = one_way.settle(train, item["applied"])
        answer = train.solve(closed)
        if answer["ratio"] is None:
            continue
        speeds = {name: None if x is None else number(x) for name, x in answer["shafts"].items()}
        yield item, number(answer["ratio"]), 1.0, speeds


def answer(name, scenario, ranges, ask):
    """A case: what is asked, and what comes of it."""
    vehicle = Vehicle(scenario, list(ranges), ask)
    found = []
    for item in vehicle.ranges:
        try:
            top, climb = item.top(), item.climb() if vehicle.weight > 0 else None
        except Gap:
            return {"name": name, "failed": True, "case": None}
        samples = []
        for part in (0.1, 0.37, 0.71, 0.93):
            speed = item.reach() * part
            engine, _, between = item.engine(item.input_speed(speed))
            samples.append([speed, item.force(speed), engine, between])
        found.append({"id": item.id, "top": top and {"speed": top[0], "atEngineLimit": top[1]}, "sine": climb,
                      "reach": item.reach(), "samples": samples})
    try:
        run = vehicle.run()
    except Gap:
        return {"name": name, "failed": True, "case": None}
    run = run and {"changes": run[0], "targets": run[1], "end": run[2]}
    return {"name": name, "failed": False,
            "case": {"scenario": scenario, "ask": ask, "ranges": found, "run": run}}


def of_scenario(job):
    """Cases of a scenario with an engine, as it is."""
    name, scenario = job
    targets = [x / 3.6 for x in range(20, 400, 20)]
    return [
        answer(f"{name}, {ask}", scenario, ranges_of(scenario), ask | {"targets": targets, "meshEfficiency": 1.0})
        for ask in ({"lockedFrom": None, "engineSpeed": None}, {"lockedFrom": 1, "engineSpeed": None},
                    {"lockedFrom": 0, "engineSpeed": scenario["engine"]["full"][-2][0]})
    ]


def _curve(draw, least, most):
    """A curve that is round enough to drive with."""
    peak = draw.between(80, 400)
    inner = {least + (most - least) * draw.between(1, 19) / 20 for _ in range(draw.between(0, 7))}
    speeds = sorted({least, most, *inner})
    return [[n, peak * (0.45 + 0.55 * math.sin(math.pi * (0.2 + 0.65 * (n - least) / (most - least)))) * draw.between(90, 110) / 100]
            for n in speeds]


def random_vehicle(job):
    """An engine, a road and sometimes a converter, drawn at random, around the train of a scenario or a single set with losses."""
    index, scenarios = job
    draw = random_trains.Draw(f"traction {index}")
    single = draw.chance(0.3)
    idle, governed = draw.between(500, 1100), draw.between(3000, 8000)
    if single:
        sun, ring = draw.between(20, 60), draw.between(62, 120)
        k, mesh = ring / sun, draw.between(930, 1000) / 1000
        e = mesh * mesh
        scenario = {
            "format": 1, "name": f"Traction {index}", "input": "s", "output": "c",
            "shafts": [{"id": x, "label": x} for x in ("s", "c", "r")],
            "couplings": [{"kind": "planetary", "id": "p", "label": "Set", "sun": {"shaft": "s", "teeth": sun},
                           "ring": {"shaft": "r", "teeth": ring}, "carrier": "c", "pinion": {"teeth": 20, "count": 3}}],
            "elements": [{"kind": "brake", "id": "R", "label": "R", "shaft": "r"},
                         {"kind": "clutch", "id": "D", "label": "D", "between": ["s", "r"]}],
            "ranges": [{"id": "one", "label": "1", "applied": ["R"]}, {"id": "two", "label": "2", "applied": ["D"]}],
        }
        ranges = [(scenario["ranges"][0], 1 + k, (1 + k * e) / (1 + k), {"s": 1.0, "c": 1 / (1 + k), "r": 0.0}),
                  (scenario["ranges"][1], 1.0, 1.0, {"s": 1.0, "c": 1.0, "r": 1.0})]
    else:
        mesh = 1.0
        scenario = dict(draw.pick(scenarios))
        for name in ("converter", "dynamics", "vehicle"):
            scenario.pop(name, None)
        ranges = list(ranges_of(scenario))
    full = _curve(draw, idle, governed)
    scenario["engine"] = {"label": "Engine", "full": full, "motoring": [[idle, -15], [governed, -40]]}
    scenario["load"] = {"label": "Road", "constant": draw.between(0, 60), "linear": draw.between(0, 30) / 1000,
                        "quadratic": draw.between(0, 90) / 1e7, "weight": draw.between(200, 3000)}
    if draw.chance(0.6):
        scenario["converter"] = {"label": "Converter", "table": operating._table(draw)}
    if draw.chance(0.7):
        scenario["vehicle"] = {"wheel_radius": draw.between(15, 60) / 100, "final_drive": draw.between(100, 600) / 100}
    if draw.chance(0.7):
        scenario["dynamics"] = {"engine_inertia": draw.between(5, 60) / 100,
                                "shafts": [{"shaft": x["id"], "inertia": draw.between(1, 90) / 1000}
                                           for x in scenario["shafts"] if draw.chance(0.6)]}
        if draw.chance(0.5):
            scenario["dynamics"]["load_inertia"] = draw.between(20, 900) / 10
    ask = {"lockedFrom": draw.pick([None, None, 0, 1, 2]), "meshEfficiency": mesh,
           "engineSpeed": draw.pick([None, governed - (governed - idle) * draw.between(0, 40) / 100]),
           "targets": [float(x) for x in range(5, 100, 5)]}
    return answer(f"vehicle {index}", scenario, ranges, ask)


def cases(pool, scenarios):
    """All of them."""
    own = [job for job in scenarios if "engine" in job[1]]
    usable = [scenario for _, scenario in scenarios if scenario.get("ranges")]
    drawn = pool.map(random_vehicle, [(index, usable) for index in range(RANDOM_VEHICLES)], chunksize=2)
    return sum(pool.map(of_scenario, own), []) + list(drawn)
