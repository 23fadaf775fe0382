"""Solves programs from the standard input with HiGHS in this process.

The programs and the answers have the form that program.c and main.c describe. HiGHS
is the one in scipy, called under linprog, whose own checks cost more than the solve.
It takes a new model with every call, so there is no warm second stage; BUILD_NS is
the time of the same call without any iterations, and SOLVE_NS what is left.
"""

import sys
import time

import numpy as np
from scipy.sparse import csc_matrix

try:
    from scipy.optimize._highs._highs_wrapper import _highs_wrapper as solve
except ImportError:
    from scipy.optimize._highspy._highs_wrapper import _highs_wrapper as solve

# As in harness.h.
FEASIBLE = 1e-9
MOST_ITERATIONS = 20000
STATUS = {7: "optimal", 8: "infeasible", 10: "unbounded"}


def options(presolve, most=MOST_ITERATIONS):
    return dict(presolve=presolve, solver="simplex", simplex_strategy=1, output_flag=False, log_to_console=False, sense=1,
                time_limit=None, primal_feasibility_tolerance=FEASIBLE, dual_feasibility_tolerance=FEASIBLE,
                simplex_iteration_limit=most)


def timed(repeats, *args):
    least = None
    for _ in range(repeats):
        at = time.perf_counter_ns()
        res = solve(*args)
        took = time.perf_counter_ns() - at
        least = took if least is None else min(least, took)
    return res, least


def numbers():
    return np.array(sys.stdin.readline().split(), dtype=float)


for line in sys.stdin:
    n, m, stages, repeats = (int(word) for word in line.split()[1:])
    objectives = [(numbers(), numbers(), numbers()) for _ in range(stages)]
    rows = np.array([numbers() for _ in range(m)])
    lower, a = rows[:, 0].copy(), csc_matrix(rows[:, 1:])
    whole = np.zeros(n, dtype=np.uint8)
    for presolve in (True, False):
        for stage, (cost, upper, row_upper) in enumerate(objectives):
            program = (cost, a.indptr, a.indices, a.data, lower, row_upper, np.zeros(n), upper, whole)
            res, took = timed(repeats, *program, options(presolve))
            _, build = timed(repeats, *program, options(False, most=0))
            print("highs-presolved" if presolve else "highs-plain", stage, STATUS.get(int(res["status"]), "other"), res.get("fun") or 0.0, build,
                  max(0, took - build))
    print("end", flush=True)
