#!/usr/bin/env python3
"""Independent check of the planner: the same model as a mixed-integer programme, solved by CBC.

  plan_milp.py make SEED COUNT        random pieces and specs, solved, as JSON to standard output
  plan_milp.py check FILE COUNT SEED  re-solves COUNT of the kept cases and compares; prints
                                      "N passed, N failed"

The model is built from the problem's statement alone (stations, grid, limits): a flow of one unit
from the front of the piece to its end, weights by Simpson's rule (exact for the face areas in
question). It is solved in four stages, each keeping what the ones before reached: demanded portions,
value, changes of k, deviation. Faces are rectangles here, so the narrowest long piece is width / k;
oval faces have closed-form tests of their own. Values count in 1e-6 of the currency, deviations in
micrograms, each rounded when a block is priced, as the planner's header says.
CBC is the package coinor-cbc of Debian. A case that it does not prove optimal in time is dropped and
counted; so which cases are kept can depend on the machine, their answers cannot.
"""
import json
import math
import random
import subprocess
import sys
import tempfile
from pathlib import Path

SECONDS = 40  # for one stage, by the clock
STAGES = {"demanded": "Maximize", "value": "Maximize", "changes": "Minimize", "deviation": "Minimize"}


def linear(stations, x, key):
    for a, b in zip(stations, stations[1:]):
        if x <= b["at"]:
            share = (x - a["at"]) / (b["at"] - a["at"])
            return a[key] * (1 - share) + b[key] * share
    return stations[-1][key]


def area(stations, x):
    return linear(stations, x, "width") * linear(stations, x, "depth")


def volume(stations, x):
    total = 0.0
    for a, b in zip(stations, stations[1:]):
        low, high = a["at"], min(b["at"], x)
        if high <= low:
            break
        middle = (low + high) / 2
        total += (high - low) / 6 * (
            area(stations, low) + 4 * area(stations, middle) + area(stations, high))
    return total


class Piece:
    """The usable part of a case on whole millimetres."""

    def __init__(self, case):
        st = case["stations"]
        begin = math.ceil(case["trim_front"])
        self.n = math.floor(st[-1]["at"] - case["trim_back"]) - begin
        whole = volume(st, st[-1]["at"])
        places = [begin + i for i in range(self.n + 1)]
        self.mass = [case["mass"] * volume(st, x) / whole for x in places]
        self.width = [linear(st, x, "width") for x in places]
        self.depth = [linear(st, x, "depth") for x in places]
        self.saw = math.ceil(case["saw"])
        self.rest_value = case["remainder_value"]  # currency per gram

    def worth(self, grams):
        return round(grams * self.rest_value * 1e6)


def arc(tail, head, spec=None, **gains):
    return {"tail": tail, "head": head, "spec": spec, "used": 0, "demanded": 0, "value": 0,
            "changes": 0, "deviation": 0, **gains}


def allowed(piece, start, to, k, limits):
    thick = to - start
    least = min(thick, min(piece.width[start:to + 1]) / k, min(piece.depth[start:to + 1]))
    return (limits.get("thickness_min", 0) - 1e-9 <= thick <= limits.get("thickness_max", 1e9) + 1e-9
            and least >= limits.get("least_min", 0) - 1e-9)


def block_arcs(case, piece, start, k):
    """Every block that starts at `start` with k long pieces, for every number of portions counted."""
    for to in range(start + 1, piece.n + 1):
        each = (piece.mass[to] - piece.mass[start]) / k
        after = piece.n if to >= piece.n else min(piece.n, to + piece.saw)
        for s, spec in enumerate(case["specs"]):
            if abs(each - spec["target"]) > spec["tolerance"] + 1e-9:
                continue
            if not allowed(piece, start, to, k, case["limits"]):
                continue
            fewest = k if spec["wanted"] is None else 1
            for used in range(fewest, k + 1):
                yield arc(("start", start, k), ("at", after, k, 0), spec=s, used=used, demanded=used,
                          value=used * round(spec["value"] * 1e6) + (k - used) * piece.worth(each),
                          deviation=used * round(abs(each - spec["target"]) * 1e6))


def arcs_of(case):
    """Nodes: ("at", place, last k, rest left before the knife) and ("start", place, k)."""
    piece = Piece(case)
    arcs = []
    for i in range(piece.n):
        rests = (0, 1) if piece.saw else (0,)
        for last_k in range(case["k_max"] + 1):
            for rest in rests:
                here = ("at", i, last_k, rest)
                arcs.append(arc(here, ("at", i + 1, last_k, rests[-1]),
                                value=piece.worth(piece.mass[i + 1] - piece.mass[i])))
                start = i + (piece.saw if rest else 0)
                if start < piece.n:
                    arcs += [arc(here, ("start", start, k), changes=int(last_k not in (0, k)))
                             for k in range(1, case["k_max"] + 1)]
        for k in range(1, case["k_max"] + 1):
            arcs += block_arcs(case, piece, i, k)
    return piece.n, arcs


def on_a_way(n, arcs):
    """Only the arcs on some way from the front to the end."""
    def reach(first, tail, head):
        out = {}
        for a in arcs:
            out.setdefault(a[tail], []).append(a[head])
        seen, due = set(first), list(first)
        while due:
            for node in out.get(due.pop(), []):
                if node not in seen:
                    seen.add(node)
                    due.append(node)
        return seen
    ends = {a["head"] for a in arcs if a["head"][0] == "at" and a["head"][1] == n}
    forward = reach({("at", 0, 0, 0)}, "tail", "head")
    backward = reach(ends, "head", "tail")
    return [a for a in arcs if a["tail"] in forward and a["head"] in backward]


def terms(pairs):
    return " ".join(f"{'+' if c >= 0 else '-'} {abs(c)} x{i}" for i, c in pairs if c) or "0 x0"


def programme(case, n, arcs, stage, reached):
    def column(name):
        return terms((i, a[name]) for i, a in enumerate(arcs))
    lines = [STAGES[stage], " obj: " + column(stage), "Subject To"]
    flow = {}
    for i, a in enumerate(arcs):
        flow.setdefault(a["tail"], []).append((i, 1))
        flow.setdefault(a["head"], []).append((i, -1))
    for row, (node, pairs) in enumerate(flow.items()):
        if not (node[0] == "at" and node[1] == n):
            lines.append(f" n{row}: {terms(pairs)} = {1 if node == ('at', 0, 0, 0) else 0}")
    for s, spec in enumerate(case["specs"]):
        pairs = [(i, a["used"]) for i, a in enumerate(arcs) if a["spec"] == s]
        if spec["wanted"] is not None and pairs:
            lines.append(f" w{s}: {terms(pairs)} <= {spec['wanted']}")
    for name, value in reached.items():  # whole numbers: half a unit of room harms nothing
        bound = f">= {value - 0.5}" if STAGES[name] == "Maximize" else f"<= {value + 0.5}"
        lines.append(f" r{name}: {column(name)} {bound}")
    return "\n".join(lines + ["Binary"] + [f" x{i}" for i in range(len(arcs))] + ["End"])


def solve(case):
    """The four objective terms, or None when optimality was not proven."""
    n, arcs = arcs_of(case)
    arcs = on_a_way(n, arcs)
    reached = {}
    for stage in STAGES:
        value = run_cbc(programme(case, n, arcs, stage, reached), arcs, stage)
        if value is None:
            return None
        reached[stage] = value
    return reached


def run_cbc(text, arcs, stage):
    with tempfile.TemporaryDirectory() as folder:
        problem, found = Path(folder, "p.lp"), Path(folder, "p.sol")
        problem.write_text(text)
        try:
            subprocess.run(["cbc", str(problem), "ratio", "0", "allow", "0", "solve", "solution",
                            str(found)], stdout=subprocess.DEVNULL, check=True, timeout=SECONDS)
        except subprocess.TimeoutExpired:
            return None
        lines = found.read_text().splitlines() if found.exists() else []
        if not lines or not lines[0].startswith("Optimal"):
            return None
        total = 0
        for line in lines[1:]:
            _, name, amount, *_ = line.replace("**", "").split()
            total += arcs[int(name[1:])][stage] * round(float(amount))
        return total


def random_case(rng):
    length = rng.randint(60, 170)
    count = rng.randint(2, 4)
    cuts = sorted(rng.sample(range(15, length - 14), count - 2)) if count > 2 else []
    stations = [{"at": x, "width": rng.randint(60, 160), "depth": rng.randint(30, 80)}
                for x in [0] + cuts + [length]]
    mass = round(volume(stations, length) * 1.06e-3)
    specs = []
    for _ in range(rng.choice([1, 1, 2])):
        target = round(mass / rng.uniform(3, 16))
        specs.append({"target": target, "tolerance": max(2, round(target * rng.uniform(0.02, 0.08))),
                      "wanted": rng.choice([None, None, rng.randint(1, 5)]),
                      "value": round(target * rng.uniform(0.02, 0.05), 2)})
    limits = {}
    if rng.random() < 0.4:
        limits["thickness_min"] = rng.randint(8, 16)
    if rng.random() < 0.3:
        limits["thickness_max"] = rng.randint(30, 60)
    if rng.random() < 0.4:
        limits["least_min"] = rng.randint(8, 20)
    return {"stations": stations, "mass": mass, "specs": specs, "limits": limits,
            "k_max": rng.randint(1, 4), "trim_front": rng.choice([0, 0, 5]),
            "trim_back": rng.choice([0, 0, 8]), "saw": rng.choice([0, 0, 0, 2]),
            "remainder_value": rng.choice([0, 0.004, 0.01])}


def make(seed, count):
    kept, number, unproven, impossible = 0, 0, 0, 0
    print('{"cases": [', flush=True)
    while kept < count:
        case = random_case(random.Random(f"{seed}/{number}"))
        number += 1
        case["answer"] = solve(case)
        if case["answer"] is None:
            unproven += 1
        elif case["answer"]["demanded"] == 0:
            impossible += 1
        else:
            kept += 1
            print(json.dumps(case, sort_keys=True) + ("," if kept < count else ""), flush=True)
    told = {"command": f"plan_milp.py make {seed} {count}", "solver": "CBC",
            "not_proven_in_time": unproven, "without_a_portion": impossible}
    print("], " + json.dumps(told)[1:])


def check(path, count, seed):
    cases = json.loads(Path(path).read_text())["cases"]
    passed = failed = 0
    for case in random.Random(seed).sample(cases, count):
        again = solve(case)
        if again == case["answer"]:
            passed += 1
        else:
            failed += 1
            print("differs:", json.dumps(case["answer"]), json.dumps(again))
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    if sys.argv[1] == "make":
        make(int(sys.argv[2]), int(sys.argv[3]))
    else:
        sys.exit(check(sys.argv[2], int(sys.argv[3]), int(sys.argv[4])))
