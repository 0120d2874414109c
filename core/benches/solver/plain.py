"""Candidates a second of NumPy: the speed equations of each range, solved for all candidates in one call."""

import json
import sys
import time

import numpy

task = json.load(sys.stdin)
candidates = numpy.arange(task["count"])
start = time.perf_counter()
for equations in task["ranges"]:
    matrices = numpy.repeat(numpy.array(equations["matrix"])[None], len(candidates), axis=0)
    for row, column in equations["teeth"]:
        matrices[:, row, column] += candidates % 7
    right = numpy.broadcast_to(numpy.array(equations["right"])[:, None], (*matrices.shape[:2], 1))
    numpy.linalg.solve(matrices, right)
print(len(candidates) / (time.perf_counter() - start))
