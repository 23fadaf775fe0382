"""Solves constrained least squares with cvxopt, for the comparison in the tests.

usage: quadratic.py PROBLEMS_JSONL ANSWERS_JSONL

A line in: {"e", "f", "g", "h"}: minimise |e x - f|^2 subject to g x >= h.
A line out: {"value": the least |e x - f|^2} or {"value": null}.
"""

import json
import sys

import numpy as np
from cvxopt import matrix, solvers

# The interior-point method ends well only where it may: several forms of a problem,
# and the tightest tolerance that one reaches counts. All are under what the tests
# compare to.
TOLERANCES = [1e-12, 1e-10, 1e-9]


def forms(e, f, g, h):
    """The problem as given, and with even columns as that of the point nearest to
    nothing (by the QR factors of e), with constraints of length one."""
    yield e, f, g, h
    length = np.linalg.norm(np.vstack([e, g]), axis=0)
    scale = 1 / np.where(length > 0, length, 1)
    e, g = e * scale, g * scale
    row = np.linalg.norm(g, axis=1)
    keep = row > 0
    g, h = g[keep] / row[keep, None], h[keep] / row[keep]
    yield e, f, g, h
    q, r = np.linalg.qr(e)
    c = q.T @ f
    m = np.linalg.solve(r.T, g.T).T
    bound = h - m @ c
    row = np.linalg.norm(m, axis=1)
    yield np.eye(len(c)), np.zeros(len(c)), m / row[:, None], bound / row


def least(e, f, g, h):
    apart = f - e @ np.linalg.lstsq(e, f, rcond=None)[0]
    for tolerance in TOLERANCES:
        solvers.options.update(show_progress=False, abstol=tolerance, reltol=tolerance, feastol=tolerance, maxiters=100)
        for k, (a, b, m, n) in enumerate(forms(e, f, g, h)):
            try:
                res = solvers.qp(matrix(a.T @ a), matrix(-a.T @ b), matrix(-m), matrix(-n))
            except (ValueError, ArithmeticError):
                continue
            if res["status"] == "optimal":
                x = np.array(res["x"]).ravel()
                return float(np.sum((a @ x - b) ** 2)) + (float(apart @ apart) if k == 2 else 0)
    return None


with open(sys.argv[1], encoding="utf-8") as problems, open(sys.argv[2], "w", encoding="utf-8") as answers:
    for line in problems:
        p = json.loads(line)
        answers.write(json.dumps({"value": least(*(np.array(p[k], dtype=float) for k in "efgh"))}) + "\n")
