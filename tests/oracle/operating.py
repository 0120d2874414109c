"""Steady operating points of engine, torque converter, gear train and load, by SciPy.

Written from the definitions: speed ratio SR = Nturbine/Npump, torque ratio TR = Tturbine/Tpump,
capacity factor K = Npump/sqrt(Tpump), so Tpump = (Npump/K)**2. The unknown is the engine speed
(the core's is the speed ratio): within one piece of the engine's curve and one of the converter's
table SR follows from it, and the torque left over at the output is looked through for zeros with
`brentq`. Each is then confirmed with `fsolve` on the interpolated tables themselves.
"""

import numpy as np
from scipy.interpolate import make_interp_spline
from scipy.optimize import brentq, fsolve

import random_trains

RANDOM_SETS = 160
# Points of one piece at which the sign is looked at.
GRID = 200
# `brentq` stops at the last bits of the engine speed.
EXACT = {"xtol": 1e-300, "rtol": 8.9e-16, "maxiter": 500}
# Inside a cell, up to roundings of its ends.
EDGE = 1e-11


def linear(knots):
    """The function that is linear between knots [x, y], as SciPy interpolates it."""
    knots = np.array(knots, dtype=float)
    return make_interp_spline(knots[:, 0], knots[:, 1], k=1)


def zeros(function, nodes):
    """Zeros of a function between neighbouring nodes with a change of sign, and at nodes."""
    nodes = np.asarray(nodes, dtype=float)
    values = function(nodes)
    found = [x for x, value in zip(nodes, values) if value == 0]
    for (a, u), (b, v) in zip(zip(nodes, values), zip(nodes[1:], values[1:])):
        if u * v < 0:
            found.append(brentq(function, a, b, **EXACT))
    return found


class Plant:
    """A scenario's engine, converter and load around a train of a known ratio and efficiency."""

    def __init__(self, scenario, conditions, train):
        self.ratio, self.driving, self.coasting = train
        full = linear(scenario["engine"]["full"])
        motoring = linear(scenario["engine"]["motoring"])
        self.speeds = sorted(
            {row[0] for name in ("full", "motoring") for row in scenario["engine"][name]}
        )
        pedal = conditions["pedal"]
        self.idle = self.speeds[0]
        self.most_at_idle = float(full(self.idle))
        self.engine = lambda n: motoring(n) + pedal * (full(n) - motoring(n))
        load, sine = scenario["load"], np.sin(np.arctan(conditions["grade"]))
        self.load = lambda n: (
            load["constant"] + load["weight"] * sine + load["linear"] * n + load["quadratic"] * n * n
        )
        # At speed ratio 1 there is no torque: 1/K² is 0 and the torque ratio 1.
        table = scenario.get("converter", {}).get("table", [])
        self.table = [[s, t, 1 / k**2] for s, t, k in table] + [[1, 1, 0]]
        if table:
            self.torque_ratio = linear([[s, t] for s, t, _ in self.table])
            self.capacity = linear([[s, c] for s, _, c in self.table])
            rows = np.array(table, dtype=float)
            self.factor = make_interp_spline(rows[:, 0], rows[:, 2], k=1)
            self.last_row = float(rows[-1, 0])

    def output(self, input_torque):
        """Output torque without sign, negative when the load drives."""
        gain = np.where(input_torque >= 0, self.driving, 1 / self.coasting)
        return abs(self.ratio) * gain * input_torque

    def open_points(self):
        """(engine speed, speed ratio) of every steady point with the converter open."""
        found = self.idle_points()
        for low, high in zip(self.speeds, self.speeds[1:]):
            for (s0, t0, c0), (s1, t1, c1) in zip(self.table, self.table[1:]):
                found += self.cell(low, high, (s0, t0, c0), (s1, t1, c1))
        return distinct(found)

    def idle_points(self):
        """Where the idle control holds the engine: its speed is known, the pump says its torque."""
        n = self.idle

        def left_over(s):
            pump = self.capacity(s) * n * n
            return self.output(self.torque_ratio(s) * pump) - self.load(s * n / abs(self.ratio))

        rows = [s for s, _, _ in self.table]
        nodes = sorted({float(x) for a, b in zip(rows, rows[1:]) for x in np.linspace(a, b, GRID)})
        found = zeros(left_over, nodes)
        return [(n, float(s)) for s in found if self.holds_idle(float(self.capacity(s)) * n * n)]

    def holds_idle(self, torque):
        return float(self.engine(self.idle)) <= torque <= self.most_at_idle

    def torque(self, n, s, locked):
        """The engine's; at idle what is asked of it, if its control can give that."""
        given = float(self.engine(n))
        if n != self.idle:
            return given, False
        if locked:
            load = self.load(n / abs(self.ratio))
            gain = self.driving if load >= 0 else 1 / self.coasting
            asked = load / abs(self.ratio) / gain
        else:
            asked = float(self.capacity(s)) * n * n
        return (asked, True) if self.holds_idle(asked) and asked > given else (given, False)

    def cell(self, low, high, start, end):
        (s0, t0, c0), (s1, t1, c1) = start, end
        nodes = np.linspace(low, high, GRID)

        def left_over(n, s):
            torque_ratio = t0 + (t1 - t0) * (s - s0) / (s1 - s0)
            return self.output(torque_ratio * self.engine(n)) - self.load(s * n / abs(self.ratio))

        # Where the pump takes what the engine gives with the capacity at either end.
        ends = [
            n
            for c in (c0, c1)
            for n in zeros(lambda n: self.engine(n) - c * n * n, nodes)
        ]
        if c0 == c1:
            pairs = [
                (n, s)
                for n in ends
                for s in zeros(lambda s: left_over(n, s), np.linspace(s0, s1, GRID))
            ]
        else:
            ratio = lambda n: s0 + (self.engine(n) / n**2 - c0) * (s1 - s0) / (c1 - c0)
            cuts = sorted({low, high, *ends})
            finer = [np.linspace(a, b, GRID) for a, b in zip(cuts, cuts[1:])]
            nodes = sorted({float(x) for piece in finer for x in piece})
            pairs = [(n, ratio(n)) for n in zeros(lambda n: left_over(n, ratio(n)), nodes)]
        return [(n, min(max(s, s0), s1)) for n, s in pairs if s0 - EDGE <= s <= s1 + EDGE]

    def confirm(self, n, s):
        """Solves the definitions from a point nearby, with the tables as a whole."""

        def equations(x):
            n, s = x[0] * 1000, x[1]
            torque = self.engine(n)
            left = self.output(float(self.torque_ratio(s)) * torque)
            return [torque - float(self.capacity(s)) * n * n, left - self.load(s * n / abs(self.ratio))]

        x, _, flag, _ = fsolve(equations, [n / 1000, s], xtol=1e-13, full_output=True)
        residual = max(map(abs, equations([n / 1000, s])))
        return residual < 1e-8 and abs(x[0] * 1000 - n) < 1e-6 * n and abs(x[1] - s) < 1e-6

    def locked_points(self):
        """Engine speed of every steady point with pump and turbine as one."""

        def left_over(n):
            return self.output(self.engine(n)) - self.load(n / abs(self.ratio))

        found = []
        for low, high in zip(self.speeds, self.speeds[1:]):
            nodes = np.linspace(low, high, GRID)
            # The losses change sides where the engine begins to hold back.
            turns = zeros(self.engine, nodes)
            found += zeros(left_over, sorted({*map(float, nodes), *turns}))
        if self.torque(self.idle, 1.0, True)[1]:
            found.append(self.idle)
        return distinct((n, 1.0) for n in found)

    def stall(self):
        """The lowest speed the engine comes to rest at with the turbine held."""
        if len(self.table) == 1:
            return None
        capacity = self.table[0][2]
        if self.holds_idle(capacity * self.idle**2):
            return self.point(self.idle, 0.0)
        left_over = lambda n: self.engine(n) - capacity * n * n
        for low, high in zip(self.speeds, self.speeds[1:]):
            for n in sorted(zeros(left_over, np.linspace(low, high, GRID))):
                step = 1e-6 * n
                if left_over(n + step) < left_over(n - step):
                    return self.point(n, 0.0)
        return None

    def point(self, n, s, locked=False):
        torque, idling = self.torque(n, s, locked)
        ratio = 1.0 if locked else float(self.torque_ratio(s))
        sign = 1 if self.ratio > 0 else -1
        between_rows = not locked and s <= self.last_row
        return {
            "engineSpeed": float(n),
            "engineTorque": torque,
            "speedRatio": float(s),
            "torqueRatio": ratio,
            "inputSpeed": float(s * n),
            "inputTorque": ratio * torque,
            "outputSpeed": float(s * n / self.ratio),
            "outputTorque": sign * float(self.output(ratio * torque)),
            "capacityFactor": None if locked else float(self.capacity(s)) ** -0.5,
            # What K itself interpolated would be: the trap.
            "factorInterpolated": float(self.factor(s)) if between_rows else None,
            "stable": self.stable(n, s, locked, idling),
            "idling": idling,
        }

    def stable(self, n, s, locked, idling):
        """Whether speeds come back, by pushing a little both ways; None where the ways differ."""
        turbine, step = s * n, 1e-5 * n
        if idling and locked:
            # The control holds engine, input and output.
            return True
        if locked:
            left = lambda d: self.output(self.engine(n + d)) - self.load((n + d) / abs(self.ratio))
            if n - step < self.speeds[0] or n + step > self.speeds[-1]:
                return None
            return verdict(left(step), left(-step))

        def pump(speed, turbine):
            return float(self.capacity(turbine / speed)) * speed**2

        def settled(turbine):
            """The engine speed at a turbine speed, near this one; the control keeps it at idle."""
            if idling:
                return n
            off = lambda m: self.engine(m) - pump(m, turbine)
            width = 20 * step
            if off(n - width) * off(n + width) >= 0:
                return None
            return brentq(off, n - width, n + width, xtol=1e-12)

        def left(d):
            m = settled(turbine + d)
            if m is None:
                return None
            torque_ratio = float(self.torque_ratio((turbine + d) / m))
            torque = pump(m, turbine + d) if idling else self.engine(m)
            return self.output(torque_ratio * torque) - self.load((turbine + d) / abs(self.ratio))

        inside = self.speeds[0] < n - 20 * step and n + 20 * step < self.speeds[-1]
        if not (inside or idling) or s >= 0.9999 or turbine <= step:
            return None
        engine = idling or verdict(
            self.engine(n + step) - pump(n + step, turbine),
            self.engine(n - step) - pump(n - step, turbine),
        )
        pushed = [left(step), left(-step)]
        if engine is None or None in pushed:
            return None
        train = verdict(*pushed)
        return None if train is None else bool(engine and train)


def verdict(ahead, behind):
    """True if what is left over brings back from both sides, False if from neither."""
    if ahead < 0 < behind:
        return True
    return False if behind < 0 < ahead else None


def distinct(points):
    kept = []
    for n, s in sorted(points):
        if not any(abs(n - m) <= 1e-8 * n and abs(s - r) <= 1e-8 for m, r in kept):
            kept.append((float(n), float(s)))
    return kept


def answer(scenario, applied, conditions, train):
    """A case: what is asked, and every steady point."""
    plant = Plant(scenario, conditions, train)
    locked = conditions["lockup"] or "converter" not in scenario
    pairs = plant.locked_points() if locked else plant.open_points()
    for n, s in pairs if not locked else []:
        if plant.torque(n, s, locked)[1]:
            continue
        assert plant.confirm(n, s), (scenario, conditions, n, s)
    points = [plant.point(n, s, locked) for n, s in pairs]
    return {
        "scenario": scenario,
        "applied": sorted(applied),
        "conditions": conditions,
        "points": sorted(points, key=lambda point: point["inputSpeed"]),
        "stall": None if locked else plant.stall(),
        "loadAtRest": float(plant.load(0)),
    }


def of_scenario(scenario, ratios):
    """Cases of the ranges of a scenario without gear losses; `ratios` by range id."""
    for index, item in enumerate(scenario["ranges"]):
        for pedal, grade, lockup in [(0.35, 0.0, False), (0.8, 0.06, False), (0.5, 0.01, True)]:
            conditions = {"pedal": pedal, "grade": grade, "lockup": lockup, "meshEfficiency": 1.0}
            train = (ratios[index], 1.0, 1.0)
            yield answer(scenario, item["applied"], conditions, train)


def _curve(draw, least, most, low, high):
    count = draw.between(0, 6)
    inner = {least + (most - least) * draw.between(1, 39) / 40 for _ in range(count)}
    return [[n, draw.between(low, high)] for n in sorted({least, most, *inner})]


def _table(draw):
    rows, torque_ratio = [], draw.between(140, 280) / 100
    factor = draw.between(70, 260)
    for s in sorted({0.0, 0.9, *(draw.between(1, 17) / 20 for _ in range(draw.between(1, 6)))}):
        # Efficiency well below 1, between the rows as well.
        most = min(torque_ratio, 0.94 / s if s else torque_ratio)
        rows.append([s, max(1.0, most - (torque_ratio - 1) * s), float(factor)])
        # Mostly rising, sometimes level, sometimes falling.
        factor *= draw.pick([1.0, 0.97, 1.02, 1.1, 1.3])
    return rows


def random_set(number):
    """An engine, a converter and a load drawn at random, around one gear set."""
    draw = random_trains.Draw(f"operating {number}")
    sun, ring = draw.between(20, 60), draw.between(62, 120)
    idle, governed = draw.between(500, 1200), draw.between(3000, 9000)
    scenario = {
        "format": 1,
        "name": f"Operating {number}",
        "input": "s",
        "output": draw.pick(["c", "c", "r"]),
        "shafts": [{"id": x, "label": x} for x in ("s", "c", "r")],
        "couplings": [
            {
                "kind": "planetary",
                "id": "p",
                "label": "Set",
                "sun": {"shaft": "s", "teeth": sun},
                "ring": {"shaft": "r", "teeth": ring},
                "carrier": "c",
                "pinion": {"teeth": 20, "count": 3},
            }
        ],
        "elements": [
            {"kind": "brake", "id": "C", "label": "C", "shaft": "c"},
            {"kind": "brake", "id": "R", "label": "R", "shaft": "r"},
            {"kind": "clutch", "id": "D", "label": "D", "between": ["s", "r"]},
        ],
        "engine": {
            "label": "Engine",
            "full": _curve(draw, idle, governed, 60, 320),
            "motoring": _curve(draw, idle, governed, -70, -5),
        },
        "load": {
            "label": "Load",
            "constant": draw.between(0, 200),
            "linear": draw.between(0, 40) / 1000,
            "quadratic": draw.between(0, 60) / 1e6,
            "weight": draw.between(0, 2500),
        },
    }
    if draw.chance(0.9):
        scenario["converter"] = {"label": "Converter", "table": _table(draw)}
    conditions = {
        "pedal": draw.pick([1.0, draw.between(0, 100) / 100, draw.between(30, 100) / 100]),
        "grade": draw.between(-20, 30) / 100 if draw.chance(0.5) else 0.0,
        "lockup": draw.chance(0.25),
        "meshEfficiency": draw.between(930, 1000) / 1000,
    }
    # Some go downhill with little pedal: the engine holds back.
    if draw.chance(0.15):
        hill = {"pedal": draw.between(0, 12) / 100, "grade": -draw.between(1, 15) / 100}
        conditions |= hill | {"lockup": True}
    # Efficiencies of a single set from its torque relation; two meshes in a row.
    k, e = ring / sun, conditions["meshEfficiency"] ** 2
    if draw.chance(0.3):
        applied, train = ["D"], (1.0, 1.0, 1.0)
    elif scenario["output"] == "c":
        applied, train = ["R"], (1 + k, (1 + k * e) / (1 + k), (1 + k) / (1 + k / e))
    else:
        applied, train = ["C"], (-k, e, e)
    return answer(scenario, applied, conditions, train)
