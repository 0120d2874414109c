"""Shifts in time, by SciPy.

The unknowns are the speeds of all shafts and pinions (the core's are the few independent ones, and its
motion is in closed form). Constraints are the equations mesh by mesh of `equations.py` and one for each element
that holds; their reactions are unknowns as well, and the system of masses and constraints is solved by least
squares. `solve_ivp` integrates with event functions for a slip that comes to zero and for a reaction that comes to
its limit, from one knot of the commands to the next. What elements without slip do after an event is found by trying all
states of them: the first that agrees with its own torques and accelerations a moment later.
"""

import itertools

import numpy as np
from scipy.integrate import solve_ivp

import equations
import random_trains
import solution

RANDOM_SHIFTS = 300
TIMES = 12
# Longest step in seconds: a slip that touches zero and leaves it again within one would be missed.
STEP = 0.002
# A moment after an event, in seconds: torques are linear, so states are told apart by then.
MOMENT = 1e-7
# For so long a slip that begins from nothing is not looked at.
FRESH = 1e-6
# What counts as a zero of accelerations and torques, against their size.
ZERO = 1e-9
# Where torques of several elements are undetermined, the smallest may come to a limit over and over again.
MOST_PIECES = 60
RAD_PER_S = np.pi / 30


def at(knots, time):
    """What is linear between knots and level outside."""
    return float(np.interp(time, [x for x, _ in knots], [y for _, y in knots]))


class Plant:
    """A train with masses, torques from outside and capacities over time."""

    def __init__(self, scenario, plan):
        self.scenario, self.plan = scenario, plan
        self.names = [x for x in equations.unknowns(scenario) if x[0] in ("shaft", "pinion")]
        self.columns = {name: index for index, name in enumerate(self.names)}
        count = len(self.names)
        inertia = {x["shaft"]: x["inertia"] for x in scenario["dynamics"]["shafts"]}
        inertia[scenario["input"]] += scenario["dynamics"]["engine_inertia"]
        inertia[scenario["output"]] += scenario["dynamics"]["load_inertia"]
        self.masses = np.array([inertia[x[1]] if x[0] == "shaft" else 0.0 for x in self.names])
        rows = []
        for coupling in scenario["couplings"]:
            for equation in equations.of_coupling(coupling):
                row = np.zeros(count)
                for name, value in equation.items():
                    if name in self.columns:
                        row[self.columns[name]] += value
                if not any(name[0] == "spin" for name in equation):
                    rows.append(row / max(1.0, np.abs(row).max()))
        self.meshes = np.array(rows).reshape(len(rows), count)
        self.elements = scenario["elements"]
        self.slips = np.zeros((len(self.elements), count))
        for index, element in enumerate(self.elements):
            first, second = self.ends(element)
            for name, sign in ((first, 1), (second, -1)):
                if name != "housing":
                    self.slips[index, self.columns[("shaft", name)]] += sign
        self.input = self.columns[("shaft", scenario["input"])]
        self.output = self.columns[("shaft", scenario["output"])]

    @staticmethod
    def ends(element):
        if element["kind"] == "brake":
            return element["shaft"], "housing"
        return tuple(element["between"])

    def solved(self, modes, time):
        """Accelerations, and the torque of each element, in a state of each: None, 0, 1 or -1."""
        held = [index for index, mode in enumerate(modes) if mode == 0]
        count = len(self.names)
        forces = np.zeros(count)
        forces[self.input] += self.plan["input_torque"]
        forces[self.output] += self.plan["output_torque"]
        torques = np.zeros(len(modes))
        for index, mode in enumerate(modes):
            if mode in (1, -1):
                torques[index] = mode * at(self.plan["capacities"][index], time)
                forces -= torques[index] * self.slips[index]
        rows = np.vstack([self.meshes, self.slips[held]])
        size = count + len(rows)
        matrix = np.zeros((size, size))
        matrix[:count, :count] = np.diag(self.masses)
        matrix[:count, count:] = rows.T
        matrix[count:, :count] = rows
        right = np.concatenate([forces, np.zeros(len(rows))])
        found = self.inverse(tuple(held), matrix) @ right
        torques[held] = found[count + len(self.meshes):]
        return found[:count], torques

    def inverse(self, held, matrix):
        cache = self.__dict__.setdefault("cache", {})
        if held not in cache:
            # Rows that depend on others have reactions that nothing decides: the smallest.
            cache[held] = np.linalg.pinv(matrix, rcond=1e-11)
        return cache[held]

    def agrees(self, modes, candidates, time):
        """Whether a state is what its own torques and accelerations a moment later ask for."""
        rates, torques = self.solved(modes, time)
        large = 1e-300 + max(np.abs(rates[: len(self.names)]).max(), 1.0)
        for index in candidates:
            most = at(self.plan["capacities"][index], time)
            slip = self.slips[index] @ rates
            if modes[index] == 0:
                if abs(torques[index]) > most + ZERO * (1 + most):
                    return False
                if abs(slip) > 1e-6 * large:
                    return False
            elif modes[index] * slip < -ZERO * large:
                return False
        return True

    def decide(self, speeds, met, time):
        """The state of each element just after a time."""
        later, modes, candidates = time + MOMENT, [], []
        for index in range(len(self.elements)):
            slip = self.slips[index] @ speeds
            if at(self.plan["capacities"][index], later) <= 0:
                modes.append(None)
            elif index in met or abs(slip) < 1e-9 * (1 + np.abs(speeds).max()):
                candidates.append(index)
                modes.append(0)
            else:
                modes.append(1 if slip > 0 else -1)
        for choice in itertools.product((0, 1, -1), repeat=len(candidates)):
            for index, mode in zip(candidates, choice):
                modes[index] = mode
            if self.agrees(modes, candidates, later):
                return modes
        raise ArithmeticError("no state agrees")

    def run(self, speeds, times):
        """Speeds at times, and the heat of each element at the end."""
        knots = {time for course in self.plan["capacities"] for time, _ in course}
        until = self.plan["until"]
        knots = sorted({time for time in knots if 0 < time < until} | {until})
        time, met, heat, samples = 0.0, set(), np.zeros(len(self.elements)), {}
        wanted, pieces = list(times), 0
        for knot in knots:
            while time < knot:
                pieces += 1
                if pieces > MOST_PIECES:
                    raise ArithmeticError("events follow one another without end")
                modes = self.decide(speeds, met, time)
                time, speeds, met, more = self.piece(
                    modes, speeds, (time, knot), met, (wanted, samples))
                heat += more
        return [samples[time] for time in times], heat, speeds

    def piece(self, modes, speeds, span, just_met, keeping):
        (start, knot), (wanted, samples) = span, keeping
        count = len(self.names)
        slipping = [index for index, mode in enumerate(modes) if mode in (1, -1)]
        held = [index for index, mode in enumerate(modes) if mode == 0]

        def rate(time, state):
            rates, torques = self.solved(modes, time)
            return np.concatenate([rates, torques * (self.slips @ state[:count])])

        events, what = [], []
        for index in slipping:
            def left(t, y, i=index, fresh=index in just_met):
                slip = modes[i] * (self.slips[i] @ y[:count])
                # One that has just begun to slip is as good as without slip at first.
                return abs(slip) + 1e-300 if fresh and t < start + FRESH else slip

            events.append(left)
            what.append(index)
        for index in held:
            def room(t, y, i=index):
                return at(self.plan["capacities"][i], t) - abs(self.solved(modes, t)[1][i])

            events.append(room)
            what.append(index)
        for event in events:
            event.terminal, event.direction = True, -1
        begin = np.concatenate([speeds, np.zeros(len(modes))])
        found = solve_ivp(rate, (start, knot), begin, method="DOP853", events=events,
                          rtol=1e-11, atol=1e-11, dense_output=True, max_step=STEP)
        end = float(found.t[-1])
        for time in list(wanted):
            if start <= time <= end:
                samples[time] = found.sol(time)[:count]
                wanted.remove(time)
        state = found.y[:, -1]
        # What holds has no slip, and what has just come to zero has none.
        met = set(held)
        for index, hits in zip(what, found.t_events):
            if len(hits):
                met.add(index)
        if not any(len(hits) for hits in found.t_events):
            end = knot
        return end, state[:count], met, state[count:]


def random_shift(number):
    """One shift of a train drawn at random; `None` where the train has none to offer."""
    draw = random_trains.Draw(f"shift {number}")
    scenario = random_trains.train(f"shift {number}")
    elements = scenario["elements"]
    if not 2 <= len(elements) <= 6:
        return None
    ids = [element["id"] for element in elements]
    train = solution.Train(scenario)
    sets = [frozenset(x for x in ids if draw.chance(0.4)) for _ in range(12)]
    drives = [x for x in dict.fromkeys(sets)
              if (found := train.solve(x))["state"] in ("driving", "over-applied")
              and found["degreesOfFreedom"] == 1]
    if not drives:
        return None
    start = draw.pick(drives)
    end = draw.pick([x for x in sets if x != start] or [frozenset()])
    small = [draw.between(1, 400) / 1000 for _ in scenario["shafts"]]
    scenario["dynamics"] = {
        "engine_inertia": draw.between(5, 50) / 100,
        "load_inertia": draw.between(50, 900) / 100,
        "shafts": [{"shaft": shaft["id"], "inertia": inertia}
                   for shaft, inertia in zip(scenario["shafts"], small)],
        "elements": [{"element": x, "fill_time": draw.between(0, 20) / 100,
                      "full_torque": float(draw.between(20, 900))} for x in ids],
    }
    commands = [{"element": x, "at": draw.between(0, 60) / 100, "ramp": draw.between(1, 50) / 100}
                for x in ids if (x in start) != (x in end)]
    capacities = []
    for entry in scenario["dynamics"]["elements"]:
        x, most = entry["element"], entry["full_torque"]
        command = next((c for c in commands if c["element"] == x), None)
        if command is None:
            capacities.append([[0, most if x in start else 0]])
        elif x in start:
            capacities.append([[command["at"], most], [command["at"] + command["ramp"], 0]])
        else:
            filled = command["at"] + entry["fill_time"]
            capacities.append([[filled, 0], [filled + command["ramp"], most]])
    plan = {
        "from": sorted(start), "to": sorted(end), "commands": commands,
        "until": 1.2,
        "input_speed": draw.between(500, 4000),
        "input_torque": draw.between(20, 250),
        "output_torque": draw.between(-600, 600),
    }
    turned = train.solve(start)["shafts"]
    plant = Plant(scenario, plan | {"capacities": capacities})
    speeds = np.zeros(len(plant.names))
    for shaft, speed in turned.items():
        numerator, denominator = speed.split("/")
        ratio = int(numerator) / int(denominator)
        speeds[plant.columns[("shaft", shaft)]] = ratio * plan["input_speed"] * RAD_PER_S
    # Pinions follow from the meshes.
    known = [index for index, name in enumerate(plant.names) if name[0] == "shaft"]
    free = [index for index, name in enumerate(plant.names) if name[0] == "pinion"]
    if free:
        left = -plant.meshes[:, known] @ speeds[known]
        speeds[free] = np.linalg.lstsq(plant.meshes[:, free], left, rcond=None)[0]
    # Lest roundings of huge speeds drown what is looked for.
    if np.abs(speeds).max() > 1e5:
        return None
    times = [plan["until"] * (index + 1) / TIMES for index in range(TIMES)]
    try:
        samples, heat, _ = plant.run(speeds, times)
    except ArithmeticError:
        return {"name": f"shift {number}", "failed": True, "case": None}
    shafts = [plant.columns[("shaft", shaft["id"])] for shaft in scenario["shafts"]]
    case = {
        "scenario": scenario,
        "plan": plan,
        "times": times,
        "speeds": [[float(sample[index]) for index in shafts] for sample in samples],
        "heat": [float(value) for value in heat],
    }
    return {"name": f"shift {number}", "failed": False, "case": case}


def shifts(pool):
    """As many as are wanted, and those given up in between; which trains have some is the same everywhere."""
    found, number, batch = [], 0, 60
    while sum(not shift["failed"] for shift in found) < RANDOM_SHIFTS:
        numbers = range(number, number + batch)
        found += [x for x in pool.map(random_shift, numbers, chunksize=4) if x is not None]
        number += batch
    return found
