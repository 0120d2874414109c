"""Writes what the tests compare the core with: exact answers by SymPy for many gear trains.

    python tests/oracle/generate.py FOLDER

Reads every scenario in `scenarios/`, draws some hundred trains at random, and writes a file a
train into FOLDER/cases: the scenario, its range chart, and the answers for its ranges and for a
sample of the combinations of its elements (all of them where there are few). The operating points
of scenarios with an engine, and of engines drawn at random, go to FOLDER/operating.json. Whether
shafts can be nested, in scenarios and in trains drawn for it, goes to FOLDER/nesting.json, and
which single swaps lead from one combination to another to FOLDER/shifts.json. Shifts in time
of trains drawn at random go to FOLDER/transient.json, driving on the road to FOLDER/traction.json,
and trains with more than one source to FOLDER/sources.json.
"""

import json
import os
import sys
import time
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

# The folder belongs to the sources: leave no compiled files in it.
sys.dont_write_bytecode = True

import layouts  # noqa: E402
import nesting  # noqa: E402
import one_way  # noqa: E402
import operating  # noqa: E402
import random_trains  # noqa: E402
import shifts  # noqa: E402
import solution  # noqa: E402
import sources  # noqa: E402
import traction  # noqa: E402
import transient  # noqa: E402
import virtual_work  # noqa: E402

SCENARIOS = Path(__file__).resolve().parents[2] / "scenarios"
RANDOM_TRAINS = 300
LONG_TRAINS = 20
CHAINS = 40
ONE_WAY_TRAINS = 80
# A train with at most this many elements is answered for all their combinations.
ALL_UP_TO = {"scenario": 6, "random": 4}
SAMPLE = {"scenario": 64, "random": 24}
# How many driving combinations of a train drawn at random get their torques.
WITH_TORQUES = 3


def is_scenario(path):
    """Schemas and the page's list of files lie in the same folder."""
    return not path.name.endswith("schema.json") and path.name != "index.json"


def trains():
    """(name, origin, scenario) of every train."""
    for path in sorted(SCENARIOS.glob("*.json")):
        if is_scenario(path):
            yield path.stem, "scenario", json.loads(path.read_text(encoding="utf-8"))
    for number in range(RANDOM_TRAINS):
        yield f"random-{number:03}", "random", random_trains.train(number)
    for number in range(LONG_TRAINS):
        scenario = random_trains.train(f"long {number}", long=True)
        yield f"long-{number:02}", "random", scenario
    for number in range(CHAINS):
        yield f"chain-{number:02}", "random", random_trains.chain(number)
    for number in range(ONE_WAY_TRAINS):
        yield f"one-way-{number:02}", "random", random_trains.with_one_ways(number)


def combinations(name, origin, scenario):
    """The sets of applied ids to answer, each once; the named ranges come first."""
    # One-way clutches lock by themselves.
    elements = scenario.get("elements", [])
    ids = [x["id"] for x in elements if x["kind"] != "one-way"]
    chosen = {frozenset(item["applied"]): None for item in scenario.get("ranges", [])}
    if len(ids) <= ALL_UP_TO[origin]:
        for bits in range(1 << len(ids)):
            applied = (x for index, x in enumerate(ids) if bits >> index & 1)
            chosen[frozenset(applied)] = None
        return list(chosen)
    draw = random_trains.Draw(f"combinations of {name}")
    for _ in range(SAMPLE[origin]):
        # Less than half of them: with many applied almost everything is tied up.
        chosen[frozenset(x for x in ids if draw.chance(0.35))] = None
    return list(chosen)


def settlement(train, applied):
    """How the one-way clutches of a range settle, and what then drives."""
    verdict, closed = one_way.settle(train, applied)
    _, coasting = one_way.settle(train, applied, coasting=True)
    ratio = train.solve(closed)["ratio"]
    return {
        "verdict": verdict,
        "closed": sorted(closed),
        "engineBraking": ratio is not None and ratio == train.solve(coasting)["ratio"],
        "torques": virtual_work.answer(train.scenario, closed, ratio),
    }


def add_torques(scenario, origin, answers):
    """Torques of the combinations that drive: of all in a scenario, of some in a random train."""
    driving = [applied for applied, x in answers.items() if x["state"] == "driving"]
    for applied in driving if origin == "scenario" else driving[:WITH_TORQUES]:
        answer = answers[applied]
        answer["torques"] = virtual_work.answer(scenario, applied, answer["ratio"])


def case(job):
    """The name of a train and the text of its file."""
    name, origin, scenario = job
    train = solution.Train(scenario)
    answers = {applied: train.solve(applied) for applied in combinations(*job)}
    settled = [settlement(train, x["applied"]) for x in scenario.get("ranges", [])]
    ranges = [train.solve(x["closed"]) for x in settled]
    add_torques(scenario, origin, answers)
    content = {
        "origin": origin,
        "scenario": scenario,
        "chart": solution.chart(scenario, ranges) | {"settled": settled},
        "combinations": list(answers.values()),
    }
    return name, json.dumps(content, indent=1), len(answers)


def number_of(rational):
    numerator, denominator = rational.split("/")
    return int(numerator) / int(denominator)


def operating_of(scenario):
    """Operating points in the ranges of a scenario with an engine."""
    train = solution.Train(scenario)
    settled = [one_way.settle(train, x["applied"])[1] for x in scenario["ranges"]]
    ratios = [number_of(train.solve(closed)["ratio"]) for closed in settled]
    return list(operating.of_scenario(scenario, ratios))


def operating_points(pool):
    """All of them."""
    scenarios = [scenario for _, origin, scenario in trains() if origin == "scenario"]
    scenarios = [scenario for scenario in scenarios if "engine" in scenario]
    drawn = pool.map(operating.random_set, range(operating.RANDOM_SETS), chunksize=4)
    return sum(pool.map(operating_of, scenarios), []) + list(drawn)


def nestings(pool):
    """Cases of shafts that can be nested and of such that cannot."""
    own = [(name, scenario) for name, origin, scenario in trains() if origin == "scenario"]
    drawn = pool.map(nesting.random_case, range(nesting.RANDOM_TRAINS), chunksize=8)
    return list(map(nesting.case, own)) + list(drawn)


def shift_graphs(pool):
    """Combinations that drive, and the single swaps between them."""
    own = [(name, scenario) for name, origin, scenario in trains() if origin == "scenario"]
    small = [job for job in own if shifts.is_small(job[1])]
    drawn = pool.map(shifts.random_case, range(shifts.RANDOM_TRAINS), chunksize=4)
    return list(pool.map(shifts.case, small)) + list(drawn)


def on_the_road(pool):
    """Vehicles that speed up and climb: scenarios, and such as are drawn at random."""
    own = [(name, scenario) for name, origin, scenario in trains() if origin == "scenario"]
    return traction.cases(pool, own)


def main(arguments):
    if len(arguments) != 1:
        sys.exit("usage: python tests/oracle/generate.py FOLDER")
    folder = Path(arguments[0]) / "cases"
    folder.mkdir(parents=True, exist_ok=True)
    for stale in folder.glob("*.json"):
        stale.unlink()

    started = time.monotonic()
    total = count = 0
    with ProcessPoolExecutor(os.cpu_count()) as pool:
        for name, content, answers in pool.map(case, trains(), chunksize=4):
            (folder / f"{name}.json").write_text(content, encoding="utf-8")
            count, total = count + 1, total + answers
        points = operating_points(pool)
        (folder.parent / "operating.json").write_text(json.dumps(points, indent=1), "utf-8")
        nested = nestings(pool)
        (folder.parent / "nesting.json").write_text(json.dumps(nested, indent=1), "utf-8")
        graphs = shift_graphs(pool)
        (folder.parent / "shifts.json").write_text(json.dumps(graphs, indent=1), "utf-8")
        branched = sources.cases(pool)
        (folder.parent / "sources.json").write_text(json.dumps(branched), "utf-8")
        in_time = transient.shifts(pool)
        (folder.parent / "transient.json").write_text(json.dumps(in_time), "utf-8")
        driven = on_the_road(pool)
        (folder.parent / "traction.json").write_text(json.dumps(driven), "utf-8")
        classes = list(pool.map(layouts.case, layouts.CLASSES[::-1]))
        (folder.parent / "layouts.json").write_text(json.dumps(classes, indent=1), "utf-8")
    seconds = time.monotonic() - started
    print(f"    {count} trains, {total} combinations, {len(points)} engines, {seconds:.0f} s")


if __name__ == "__main__":
    main(sys.argv[1:])
