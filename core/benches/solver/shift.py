"""Seconds that SciPy takes for one shift: friction made smooth around standstill, so that one call of `solve_ivp` integrates it all."""

import json
import sys
import time

import numpy as np
from scipy.integrate import solve_ivp
from scipy.linalg import null_space

task = json.load(sys.stdin)
masses, meshes, slips = (np.array(task[name], dtype=float) for name in ("masses", "meshes", "slips"))
# Motions that the meshes allow, and the masses and forces seen in them.
motions = null_space(meshes.reshape(-1, len(masses)))
inverse = np.linalg.inv(motions.T @ np.diag(masses) @ motions)
outside, slips = motions.T @ np.array(task["torques"]), slips @ motions
knots = [np.array(course).T for course in task["capacities"]]


def rates(now, state):
    most = np.array([np.interp(now, times, values) for times, values in knots])
    return inverse @ (outside - slips.T @ (most * np.tanh(slips @ state / task["band"])))


begin = np.linalg.lstsq(motions, np.array(task["start"]), rcond=None)[0]
start = time.perf_counter()
found = solve_ivp(rates, (0, task["until"]), begin, method="LSODA", rtol=1e-6, atol=1e-6, max_step=0.01)
taken = time.perf_counter() - start
print(json.dumps({"seconds": taken, "end": list(motions @ found.y[:, -1])}))
