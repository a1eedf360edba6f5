#!/usr/bin/env python3
"""Independent check of the planner: the same model as a mixed-integer programme, solved by CBC.

  plan_milp.py make SEED COUNT        random pieces and specs, solved, as JSON to standard output
  plan_milp.py check FILE COUNT SEED  re-solves COUNT of the kept cases and compares
  plan_milp.py self SEED COUNT        compares CBC with trying every plan, on short pieces, and the
                                      expected worths with sums over the rule point by point

`check` and `self` print "N passed, N failed".

The model is built from the problem's statement alone (stations, marks, limits, scatter, costs): a flow
of one unit from the front of the piece to its end, weights by Simpson's rule (exact for the face areas
in question), one objective. Faces are rectangles here, so the narrowest long piece is width / k; oval
faces have closed-form tests of their own. Money counts in 1e-6 of the currency, each worth rounded
half to even when it is priced, as the planner's header says.
CBC is the package coinor-cbc of Debian. A case that it does not prove optimal in time is dropped and
counted; so which cases are kept can depend on the machine, their answers cannot.
"""
import itertools
import json
import math
import random
import subprocess
import sys
import tempfile
from pathlib import Path

SECONDS = 40  # for one case, by the clock
ASKED_FOR = 3.0
TRIMMED_WORTH = 0.5
SLACK = 1e-9  # g on a tolerance, mm on a limit, marks on a place


def micro(money):
    return round(money * 1e6)


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


def places_of(case):
    """Readings from the first face where a cut or a face can be."""
    length, grid = case["stations"][-1]["at"], case["grid"]
    first = math.ceil(case["trim_front"] / grid - SLACK)
    last = math.floor((length - case["trim_back"]) / grid + SLACK)
    places = [i * grid for i in range(first, last + 1)]
    if case["trim_back"] == 0 and length - places[-1] > 1e-6:
        places.append(length)
    return places


class Piece:
    """The usable part of a case, place by place."""

    def __init__(self, case):
        st = case["stations"]
        whole = volume(st, st[-1]["at"])
        self.at = places_of(case)
        self.n = len(self.at) - 1
        self.mass = [case["mass"] * volume(st, x) / whole for x in self.at]
        self.width = [linear(st, x, "width") for x in self.at]
        self.depth = [linear(st, x, "depth") for x in self.at]
        self.saw = math.ceil(case["saw"] / case["grid"])  # in marks
        self.rest = [micro(case["remainder_value"] * (b - a))
                     for a, b in zip(self.mass, self.mass[1:])]
        least = min(spec["value"] for spec in case["specs"])
        self.cost = {name: micro(share * least) for name, share in case["costs"].items()}


def within(spec, weight):
    return abs(weight - spec["target"]) <= spec["tolerance"] + SLACK


def counted_worth(spec):
    return spec["value"] * (1 if spec["wanted"] is None else 1 + ASKED_FOR)


def beyond(case, a, above):
    """What is added to r x where no tolerance holds x, and x is above the limits `above` says."""
    r = case["remainder_value"]
    best = 0.0  # lesser pile
    for b, spec in enumerate(case["specs"]):
        if above(spec):
            full = counted_worth(spec) if b == a else spec["value"]
            best = max(best, TRIMMED_WORTH * full - r * spec["target"])
    return best


def outcome(case, a, x):
    """What a portion meant for kind a is worth when it weighs x."""
    specs = case["specs"]
    if within(specs[a], x):
        return counted_worth(specs[a])
    other = [s["value"] for b, s in enumerate(specs) if b != a and within(s, x)]
    if other:
        return max(other)
    return case["remainder_value"] * x + beyond(
        case, a, lambda s: x > s["target"] + s["tolerance"])


def spread(case, piece, kind, each, k):
    """As thick as a block of the kind's target is in the mean of the piece."""
    split = k * case["split"] if k > 1 else 0
    grams_per_mm = (piece.mass[-1] - piece.mass[0]) / (piece.at[-1] - piece.at[0])
    thick = k * case["specs"][kind]["target"] / grams_per_mm
    return each * math.hypot(case["knife"] / thick, split)


def expected(case, a, each, s):
    """The mean of outcome() for a normal weight, interval by interval between the limits."""
    if s == 0:
        return outcome(case, a, each)
    specs, r = case["specs"], case["remainder_value"]
    limits = [(p["target"] - p["tolerance"], p["target"] + p["tolerance"]) for p in specs]
    edges = [-math.inf, *sorted({x for pair in limits for x in pair}), math.inf]
    total = 0.0
    for low, high in zip(edges, edges[1:]):
        inside = [b for b, pair in enumerate(limits) if pair[0] <= low and high <= pair[1]]
        if a in inside:
            fixed, slope = counted_worth(specs[a]), 0.0
        elif inside:
            fixed, slope = max(specs[b]["value"] for b in inside), 0.0
        else:
            fixed = beyond(case, a, lambda p, low=low: low >= p["target"] + p["tolerance"])
            slope = r
        z = [(low - each) / s, (high - each) / s]
        mass = (math.erf(z[1] / math.sqrt(2)) - math.erf(z[0] / math.sqrt(2))) / 2
        fall = (math.exp(-z[0] ** 2 / 2) - math.exp(-z[1] ** 2 / 2)) / math.sqrt(2 * math.pi)
        total += (fixed + slope * each) * mass + slope * s * fall
    return total


def allowed(piece, start, to, k, limits):
    thick = piece.at[to] - piece.at[start]
    least = min(thick, min(piece.width[start:to + 1]) / k, min(piece.depth[start:to + 1]))
    return (limits.get("thickness_min", 0) - SLACK <= thick
            <= limits.get("thickness_max", 1e9) + SLACK
            and least >= limits.get("least_min", 0) - SLACK)


def servings(case, kinds, k):
    """How the k portions of a block can count: {kind: how many}, for one kind or two of `kinds`."""
    for size in (1, 2):
        for chosen in itertools.combinations(kinds, size):
            free = any(case["specs"][s]["wanted"] is None for s in chosen)
            for counts in itertools.product(range(1, k + 1), repeat=size):
                if sum(counts) == k or (sum(counts) < k and not free):
                    yield dict(zip(chosen, counts))


def blocks_from(case, piece, start, k):
    """Every block that starts at `start` with k long pieces: its far place, servings and worth."""
    for to in range(start + 1, piece.n + 1):
        each = (piece.mass[to] - piece.mass[start]) / k
        kinds = [s for s, spec in enumerate(case["specs"]) if within(spec, each)]
        if not kinds or not allowed(piece, start, to, k, case["limits"]):
            continue
        worth = {a: micro(expected(case, a, each, spread(case, piece, a, each, k)))
                 for a in kinds}
        surplus = micro(case["remainder_value"] * each) - piece.cost["spare"]
        for used in servings(case, kinds, k):
            yield to, used, (sum(count * worth[a] for a, count in used.items())
                             + (k - sum(used.values())) * surplus)


def arc(tail, head, worth, used=None):
    return {"tail": tail, "head": head, "worth": worth, "used": used or {}}


def arcs_of(case):
    """Nodes: ("at", place, last k, rest left before the knife) and ("start", place, k)."""
    piece = Piece(case)
    arcs = []
    for i in range(piece.n):
        for last_k, rest in itertools.product(range(case["k_max"] + 1), (0, 1)):
            here = ("at", i, last_k, rest)
            arcs.append(arc(here, ("at", i + 1, last_k, 1), piece.rest[i]))
            start = i + (piece.saw if rest else 0)
            for k in range(1, case["k_max"] + 1):
                if start < piece.n:
                    lost = rest * piece.cost["gap"] + (last_k not in (0, k)) * piece.cost["change"]
                    arcs.append(arc(here, ("start", start, k), -lost))
        for k in range(1, case["k_max"] + 1):
            for to, used, worth in blocks_from(case, piece, i, k):
                lost = piece.cost["cut"] if to < piece.n else 0
                after = min(piece.n, to + piece.saw)
                arcs.append(arc(("start", i, k), ("at", after, k, 0), worth - lost, used))
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


def programme(case, n, arcs):
    lines = ["Maximize", " obj: " + terms((i, a["worth"]) for i, a in enumerate(arcs)),
             "Subject To"]
    flow = {}
    for i, a in enumerate(arcs):
        flow.setdefault(a["tail"], []).append((i, 1))
        flow.setdefault(a["head"], []).append((i, -1))
    for row, (node, pairs) in enumerate(flow.items()):
        if not (node[0] == "at" and node[1] == n):
            lines.append(f" n{row}: {terms(pairs)} = {1 if node == ('at', 0, 0, 0) else 0}")
    for s, spec in enumerate(case["specs"]):
        pairs = [(i, a["used"][s]) for i, a in enumerate(arcs) if s in a["used"]]
        if spec["wanted"] is not None and pairs:
            lines.append(f" w{s}: {terms(pairs)} <= {spec['wanted']}")
    return "\n".join(lines + ["Binary"] + [f" x{i}" for i in range(len(arcs))] + ["End"])


def solve(case):
    """The best worth and the number of its blocks, or None when optimality was not proven."""
    n, arcs = arcs_of(case)
    arcs = on_a_way(n, arcs)
    taken = run_cbc(programme(case, n, arcs), arcs)
    if taken is None:
        return None
    return sum(a["worth"] for a in taken), sum(1 for a in taken if a["used"])


def run_cbc(text, arcs):
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
        taken = []
        for line in lines[1:]:
            _, name, amount, *_ = line.replace("**", "").split()
            taken += [arcs[int(name[1:])]] * round(float(amount))
        return taken


def random_specs(rng, mass):
    specs = []
    for _ in range(rng.choice([1, 1, 2, 2, 3])):
        target = round(mass / rng.uniform(3, 16))
        if specs and rng.random() < 0.6:  # tolerances that overlap or nearly do
            target = round(specs[0]["target"] * rng.uniform(0.88, 1.14))
        specs.append({"target": target, "tolerance": max(2, round(target * rng.uniform(0.02, 0.08))),
                      "wanted": rng.choice([None, rng.randint(1, 6)]),
                      "value": round(target * rng.uniform(0.02, 0.05), 2)})
    return specs


def random_costs(rng):
    return rng.choice([{"cut": 0.01, "gap": 0.25, "change": 0.5, "spare": 0.25},
                       {"cut": 0, "gap": 0, "change": 0, "spare": 0},
                       {"cut": round(rng.uniform(0, 0.05), 3), "gap": round(rng.uniform(0, 0.6), 3),
                        "change": round(rng.uniform(0, 1), 3),
                        "spare": round(rng.uniform(0, 0.4), 3)}])


def random_case(rng):
    length = rng.randint(60, 170)
    count = rng.randint(2, 4)
    cuts = sorted(rng.sample(range(15, length - 14), count - 2)) if count > 2 else []
    if rng.random() < 0.4:
        length = round(length + rng.uniform(0.1, 0.9), 1)
    stations = [{"at": x, "width": rng.randint(50, 160), "depth": rng.randint(15, 70)}
                for x in [0] + cuts + [length]]
    mass = round(volume(stations, length) * 1.06e-3)
    specs = random_specs(rng, mass)
    limits = {}
    if rng.random() < 0.4:
        limits["thickness_min"] = rng.randint(8, 16)
    if rng.random() < 0.3:
        limits["thickness_max"] = rng.randint(30, 60)
    if rng.random() < 0.4:
        limits["least_min"] = rng.randint(8, 32)
    per_gram = specs[0]["value"] / specs[0]["target"]
    return {"stations": stations, "mass": mass, "specs": specs, "limits": limits,
            "k_max": rng.randint(1, 4), "grid": rng.choice([1, 1, 25.4 / 16]),
            "trim_front": rng.choice([0, 0, 0, 5, 4.6]), "trim_back": rng.choice([0, 0, 0, 8, 7.3]),
            "saw": rng.choice([0, 0, 0, 2, 1.2]), "knife": rng.choice([0, 0.7, 1.5]),
            "split": rng.choice([0, 0.0175]), "costs": random_costs(rng),
            "remainder_value": rng.choice([0, round(rng.uniform(0, 0.6) * per_gram, 5)])}


def make(seed, count):
    kept, number, unproven, impossible = 0, 0, 0, 0
    print('{"cases": [', flush=True)
    while kept < count:
        case = random_case(random.Random(f"{seed}/{number}"))
        number += 1
        found = solve(case)
        if found is None:
            unproven += 1
        elif found[1] == 0:
            impossible += 1
        else:
            kept += 1
            case["answer"] = {"worth": found[0]}
            print(json.dumps(case, sort_keys=True) + ("," if kept < count else ""), flush=True)
    told = {"command": f"plan_milp.py make {seed} {count}", "solver": "CBC",
            "not_proven_in_time": unproven, "without_a_portion": impossible}
    print("], " + json.dumps(told)[1:])


def verdict(passed, failed):
    print(f"{passed} passed, {failed} failed")
    return 1 if failed or not passed else 0


def check(path, count, seed):
    cases = json.loads(Path(path).read_text())["cases"]
    passed = failed = 0
    for case in random.Random(seed).sample(cases, count):
        again = solve(case)
        if again is not None and again[0] == case["answer"]["worth"]:
            passed += 1
        else:
            failed += 1
            print("differs:", json.dumps(case["answer"]), json.dumps(again))
    return verdict(passed, failed)


def short_case(rng):
    """At most 14 places, marks wide apart, tolerances wide enough to hold some blocks."""
    case = random_case(rng)
    case["grid"] = round(case["stations"][-1]["at"] / rng.uniform(8, 13), 2)
    case["limits"].pop("thickness_max", None)
    for spec in case["specs"]:
        spec["tolerance"] = max(spec["tolerance"], round(spec["target"] * rng.uniform(0.1, 0.3)))
    return case


def best_by_trying(case):
    """The most worth of all plans, each tried from the front to the end."""
    piece = Piece(case)
    made = {(i, k): list(blocks_from(case, piece, i, k))
            for i in range(piece.n) for k in range(1, case["k_max"] + 1)}

    def rest_of(at, last_k, after_rest, left):
        if at >= piece.n:
            return 0
        best = piece.rest[at] + rest_of(at + 1, last_k, True, left)
        face = at + piece.saw if after_rest else at
        for k in range(1, case["k_max"] + 1):
            for to, used, worth in made.get((face, k), []):
                still = [w if w is None else w - used.get(s, 0) for s, w in enumerate(left)]
                if any(w is not None and w < 0 for w in still):
                    continue
                if after_rest:
                    worth -= piece.cost["gap"]
                if last_k is not None and last_k != k:
                    worth -= piece.cost["change"]
                if to != piece.n:
                    worth -= piece.cost["cut"]
                best = max(best, worth + rest_of(to + piece.saw, k, False, still))
        return best
    return rest_of(0, None, False, [spec["wanted"] for spec in case["specs"]])


def worths_agree(case, points=20000):
    """The closed forms against a sum of the rule over many weights, for a spread of their own."""
    for a, spec in enumerate(case["specs"]):
        for share, s in itertools.product((-1, 0.5), (0.02, 0.1)):
            each, s = spec["target"] + share * spec["tolerance"], s * spec["target"]
            step = 16 * s / points
            at = [each + s * -8 + step * (i + 0.5) for i in range(points)]
            total = sum(outcome(case, a, x) * math.exp(-((x - each) / s) ** 2 / 2) for x in at)
            total *= step / (s * math.sqrt(2 * math.pi))
            highest = max(counted_worth(p) for p in case["specs"])
            if abs(total - expected(case, a, each, s)) > 2e-3 * highest:
                return False
    return True


def check_itself(seed, count):
    passed = failed = number = 0
    while passed + failed < count:
        case = short_case(random.Random(f"self/{seed}/{number}"))
        number += 1
        found = solve(case)
        if found is None or found[1] == 0:
            continue
        tried = best_by_trying(case)
        if found[0] == tried and worths_agree(case):
            passed += 1
        else:
            failed += 1
            print("differs:", found[0], tried, json.dumps(case, sort_keys=True))
    return verdict(passed, failed)


if __name__ == "__main__":
    if sys.argv[1] == "make":
        make(int(sys.argv[2]), int(sys.argv[3]))
    elif sys.argv[1] == "self":
        sys.exit(check_itself(int(sys.argv[2]), int(sys.argv[3])))
    else:
        sys.exit(check(sys.argv[2], int(sys.argv[3]), int(sys.argv[4])))
