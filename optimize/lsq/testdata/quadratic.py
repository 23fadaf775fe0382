"""Solves constrained least squares with cvxopt, for the comparison in the tests.

usage: quadratic.py PROBLEMS_JSONL ANSWERS_JSONL

A line in: {"e", "f", "g", "h"}: minimise |e x - f|^2 subject to g x >= h.
A line out: {"value": the least |e x - f|^2} or {"value": null}.
"""

import json
import sys

import numpy as np
from cvxopt import matrix, solvers

solvers.options.update(show_progress=False, abstol=1e-12, reltol=1e-12, feastol=1e-12, maxiters=200)

with open(sys.argv[1], encoding="utf-8") as problems, open(sys.argv[2], "w", encoding="utf-8") as answers:
    for line in problems:
        p = json.loads(line)
        e, f, g, h = (np.array(p[k], dtype=float) for k in "efgh")
        try:
            res = solvers.qp(matrix(e.T @ e), matrix(-e.T @ f), matrix(-g), matrix(-h))
            x = np.array(res["x"]).ravel()
            value = float(np.sum((e @ x - f) ** 2)) if res["status"] == "optimal" else None
        except (ValueError, ArithmeticError):
            value = None
        answers.write(json.dumps({"value": value}) + "\n")
