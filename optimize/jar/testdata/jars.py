"""Judges jars with HiGHS, by programs of its own.

Each line of the input is a household: its pets as the jar's test data have them, which
powders of each are in the jar, and a jar's shares or null. Each line of the answer says
whether one jar serves all pets within their budgets of misses ("serves"), and for shares
the least grams of add-on of each pet with that jar ("grams", null where there are none).
"""
import json
import sys

import numpy as np
from scipy.optimize import linprog

SLIVER = 1e-3


def solve(cost, rows, upper):
    """Minimise over columns from 0 to upper; a row is (coefficients, lower, upper)."""
    ub, eq, b_ub, b_eq = [], [], [], []
    for a, lower, most in rows:
        if lower is not None and lower == most:
            eq.append(a)
            b_eq.append(lower)
            continue
        if lower is not None:
            ub.append(-a)
            b_ub.append(-lower)
        if most is not None:
            ub.append(a)
            b_ub.append(most)
    return linprog(cost, A_ub=np.array(ub), b_ub=b_ub, A_eq=np.array(eq) if eq else None,
                   b_eq=b_eq or None, bounds=[(lo, hi) for lo, hi in upper], method="highs")


def budget(pet):
    return pet["missed"] + SLIVER if pet["missed"] > 1e-7 else 0.0


def fixed(pet, shares):
    """The least grams of a pet with a jar of these shares, in grams a day."""
    items = [x["id"] for x in pet["items"]]
    direct = [j for j, x in enumerate(items) if j == 0 or x not in shares]
    rows = pet["rows"]
    n = 1 + len(direct) + len(rows)
    cost = np.zeros(n)
    cost[0] = 1
    for at, j in enumerate(direct):
        cost[1 + at] = 1 if j > 0 else 0
    out, all_misses = [], np.zeros(n)
    bounds = [(0, None)] + [(0, pet["items"][j]["cap"]) for j in direct] + [(0, 0)] * len(rows)
    for i, r in enumerate(rows):
        a = np.zeros(n)
        for j, x in enumerate(items):
            v = r["a"][j] / r["size"]
            if j > 0 and x in shares:
                a[0] += v * shares[x]
        for at, j in enumerate(direct):
            a[1 + at] = r["a"][j] / r["size"]
        if r["elastic"] and budget(pet) > 0:
            a[1 + len(direct) + i] = 1
            bounds[1 + len(direct) + i] = (0, None)
            all_misses[1 + len(direct) + i] = 1
        out.append((a, None if r["lower"] is None else r["lower"] / r["size"],
                    None if r["upper"] is None else r["upper"] / r["size"]))
    if budget(pet) > 0:
        out.append((all_misses, None, budget(pet)))
    for j, x in enumerate(items):
        if j > 0 and shares.get(x):
            a = np.zeros(n)
            a[0] = shares[x]
            out.append((a, None, pet["items"][j]["cap"]))
    answer = solve(cost, out, bounds)
    return answer.fun if answer.status == 0 else None


def serves(pets, parts):
    """Whether there are shares with days for all pets: everything per gram of jar."""
    at = len(parts)
    places = []
    for p in pets:
        columns = {"days": at}
        at += 1
        for j, x in enumerate(p["items"]):
            if j == 0 or x["id"] not in parts:
                columns["item", j] = at
                at += 1
        if budget(p) > 0:
            for i, r in enumerate(p["rows"]):
                if r["elastic"]:
                    columns["miss", i] = at
                    at += 1
        places.append(columns)
    bounds = [(0, 1)] * len(parts) + [(0, None)] * (at - len(parts))
    whole = np.zeros(at)
    whole[:len(parts)] = 1
    rows = [(whole, 1, 1)]
    for p, columns in zip(pets, places):
        bounds[columns["days"]] = (1e-4, 1e3)
        misses = np.zeros(at)
        for i, r in enumerate(p["rows"]):
            for side, sign in (("lower", 1), ("upper", -1)):
                if r[side] is None:
                    continue
                a = np.zeros(at)
                for j, x in enumerate(p["items"]):
                    v = sign * r["a"][j] / r["size"]
                    a[columns["item", j] if ("item", j) in columns else parts.index(x["id"])] += v
                a[columns["days"]] -= sign * r[side] / r["size"]
                if ("miss", i) in columns and side == "lower":
                    a[columns["miss", i]] = 1
                    misses[columns["miss", i]] = 1
                rows.append((a, 0, None))
        if budget(p) > 0:
            misses[columns["days"]] = -budget(p)
            rows.append((misses, None, 0))
        for j, x in enumerate(p["items"]):
            a = np.zeros(at)
            a[columns["item", j] if ("item", j) in columns else parts.index(x["id"])] = 1
            a[columns["days"]] = -x["cap"]
            rows.append((a, None, 0))
    return solve(np.zeros(at), rows, bounds).status == 0


for line in sys.stdin:
    home = json.loads(line)
    answer = {"serves": serves(home["pets"], home["parts"])}
    if home["shares"] is not None:
        shares = dict(zip(home["parts"], home["shares"]))
        answer["grams"] = [fixed(p, shares) for p in home["pets"]]
    print(json.dumps(answer))
