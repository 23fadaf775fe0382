"""Solves mixed-integer programs with CBC, for the comparison in the tests.

usage: cbc.py PROGRAMS_JSONL ANSWERS_JSONL (formats as in highs.py; an
answer also holds "x", the columns that are not zero)
"""

import concurrent.futures
import json
import os
import subprocess
import sys
import tempfile

# No gap, the tightest tolerances, and improvements of any size; by default CBC takes
# only those of 1e-5. A search that goes on for longer is "other".
OPTIONS = ["-ratioGap", "0", "-allowableGap", "0", "-increment", "1e-9",
           "-primalTolerance", "1e-9", "-integerTolerance", "1e-9", "-sec", "4"]


def terms(a):
    parts = [f"{v:+.17g} x{j}" for j, v in enumerate(a) if v]
    return " ".join(parts) if parts else "+0 x0"


def text(p):
    out = ["Minimize", " obj: " + terms(p["cost"]), "Subject To"]
    for i, r in enumerate(p["rows"]):
        lo, hi = r["lower"], r["upper"]
        if lo is not None and lo == hi:
            out.append(f" e{i}: {terms(r['a'])} = {lo:.17g}")
            continue
        if lo is not None:
            out.append(f" l{i}: {terms(r['a'])} >= {lo:.17g}")
        if hi is not None:
            out.append(f" u{i}: {terms(r['a'])} <= {hi:.17g}")
    out.append("Bounds")
    out += [f" x{j} <= {u:.17g}" for j, u in enumerate(p["upper"]) if u is not None]
    out.append("Generals")
    out += [f" x{j}" for j, whole in enumerate(p["integer"]) if whole]
    out.append("End")
    return "\n".join(out) + "\n"


def solve(line):
    p = json.loads(line)
    other = {"status": "other", "objective": None}
    with tempfile.TemporaryDirectory() as folder:
        model, solution = os.path.join(folder, "p.lp"), os.path.join(folder, "p.sol")
        with open(model, "w", encoding="utf-8") as f:
            f.write(text(p))
        subprocess.run(["cbc", model, *OPTIONS, "-solve", "-solution", solution],
                       stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False)
        if not os.path.exists(solution):  # it can abort
            return other
        with open(solution, encoding="utf-8") as f:
            first = f.readline()
            values = [(w[1], float(w[2])) for w in (row.split() for row in f) if len(w) > 2 and w[1].startswith("x")]
    if first.startswith("Optimal"):
        return {"status": "optimal", "objective": sum(p["cost"][int(name[1:])] * v for name, v in values),
                "x": {name[1:]: v for name, v in values}}
    if first.startswith("Infeasible") or first.startswith("Integer infeasible"):
        return {"status": "infeasible", "objective": None}
    return other


with open(sys.argv[1], encoding="utf-8") as programs, open(sys.argv[2], "w", encoding="utf-8") as answers, \
        concurrent.futures.ThreadPoolExecutor(max_workers=os.cpu_count()) as pool:
    for answer in pool.map(solve, programs):
        answers.write(json.dumps(answer) + "\n")
