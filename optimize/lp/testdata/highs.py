"""Solves linear programs with HiGHS (scipy), for the comparison in the tests.

usage: highs.py PROGRAMS_JSONL ANSWERS_JSONL

A line in: {"cost", "upper", "rows": [{"a", "lower", "upper"}], "integer"}; null is
no bound; columns are not negative; "integer" marks whole columns or is absent.
A line out: {"status": "optimal" | "infeasible" | "unbounded" | "other", "objective"}.
"""

import json
import sys

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, linprog, milp

STATUS = {0: "optimal", 2: "infeasible", 3: "unbounded"}


def solve(p):
    cost = np.array(p["cost"])
    upper = np.array([np.inf if u is None else u for u in p["upper"]])
    a = np.array([r["a"] for r in p["rows"]])
    lo = np.array([-np.inf if r["lower"] is None else r["lower"] for r in p["rows"]])
    hi = np.array([np.inf if r["upper"] is None else r["upper"] for r in p["rows"]])
    if p.get("integer"):
        res = milp(cost, constraints=LinearConstraint(a, lo, hi), bounds=Bounds(0, upper), integrality=np.array(p["integer"]),
                   options={"mip_rel_gap": 0})
        return res
    same = lo == hi
    up, down = ~same & np.isfinite(hi), ~same & np.isfinite(lo)
    a_ub = np.vstack([a[up], -a[down]])
    b_ub = np.concatenate([hi[up], -lo[down]])
    return linprog(cost, A_ub=a_ub if len(b_ub) else None, b_ub=b_ub if len(b_ub) else None,
                   A_eq=a[same] if same.any() else None, b_eq=lo[same] if same.any() else None,
                   bounds=np.column_stack([np.zeros(len(cost)), upper]), method="highs-ds",
                   options={"primal_feasibility_tolerance": 1e-10, "dual_feasibility_tolerance": 1e-10})


with open(sys.argv[1], encoding="utf-8") as programs, open(sys.argv[2], "w", encoding="utf-8") as answers:
    for line in programs:
        res = solve(json.loads(line))
        answers.write(json.dumps({"status": STATUS.get(res.status, "other"), "objective": res.fun if res.status == 0 else None}) + "\n")
