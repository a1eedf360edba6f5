#!/usr/bin/env python3
"""The log once more, apart from the core: exact fractions, brute force, the standard library alone.

  log_check.py COMMAND...   makes random kitchens of sessions, runs COMMAND FILE... on them and compares its
                            `log` with what is computed here from the files: lines, marks, intervals,
                            medians, limits by moving range, signals, Shapley parts by walking through
                            all orders of the causes, and the order to be placed

Formulas: core/report/REPORT.md and the headers it names; limits NIST/SEMATECH e-Handbook 6.3.2.2 with the textbooks'
2.66; Shapley values from their definition. Sessions are invented.
"""
import itertools
import json
import math
import pathlib
import random
import statistics
import subprocess
import sys
import tempfile
from fractions import Fraction

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "schema"))
from session_json import sealed  # noqa: E402

LETTERS = "0123456789abcdefghjkmnpqrstvwxyz"
ROLES = ("primary", "secondary", "usable-trim", "unusable-trim")
PILES = {"portions": 0, "skewers": 1, "grind": 2, "bones": 2, "waste": 3}
ORDER = {"portions": 40, "of": 150, "confidence": "0.9"}


# ---- sessions as files -----------------------------------------------------------------------------

def make_session(dice, key, day, drift):
    """A session of one kitchen: increments of whole grams, prices with two decimals."""
    writer = "".join(dice.choices(LETTERS, k=10))
    session = "".join(dice.choices(LETTERS, k=20))
    known = dice.random() < 0.9
    entries = []

    def enter(kind, by=None, **fields):
        n = len(entries) + 1
        entry = {"id": f"{writer}.{n}", "kind": kind, "seq": n, "tz": 60,
                 "t": 1760000000000 + day * 86400000 + n * 60000 if known else 0}
        entry.update({name.replace("_", "-"): value for name, value in fields.items()})
        if by:
            entry["by"] = by
        entries.append(entry)
        return entry["id"]

    people = [enter("person", name=name) for name in ("Invented A", "Invented B")]
    cook = dice.choice([people[0]] * 4 + [people[1], None])
    enter("piece", name=dice.choice(["Loin", "Short loin", ""]))
    currency = "USD" if dice.random() < 0.1 else "EUR"
    enter("setting", key="currency", value=currency)
    if dice.random() < 0.3:
        enter("setting", key="loss-limit", value="1.5 %")
    if key:
        first = enter("line", key="not-this-one")
        enter("line", key=key, replaces=[first], **({"start": True} if dice.random() < 0.02 else {}))
    if dice.random() < 0.1:
        enter("specification", text="Chain on")
    whole = dice.randint(4200, 5600)
    enter("incoming", which="invoice", weight=f"{whole} g", **({"count": 2} if dice.random() < 0.1 else {}))
    packaging = dice.choice([0, 0, 45])
    if packaging:
        enter("incoming", which="packaging", weight=f"{packaging} g")
    if dice.random() < 0.93:
        if dice.random() < 0.5:
            enter("price", of="piece", basis="per-mass", amount=f"{dice.randint(1700, 2400) / 100}", unit="kg",
                  currency=currency)
        else:
            enter("price", of="piece", basis="total", amount=f"{dice.randint(8000, 11000) / 100}", currency=currency)
    for pile, role in PILES.items():
        if pile != "bones" or dice.random() < 0.4:
            enter("pile", key=pile, name=pile, role=ROLES[role])
            if pile in ("skewers", "grind", "bones") and dice.random() < 0.9:
                enter("price", of=f"pile:{pile}", basis="per-mass", unit="kg", currency=currency,
                      amount=f"{dice.choice([dice.randint(50, 900) / 100, 6])}")
    have = {entry["key"] for entry in entries if entry["kind"] == "pile"}
    board = whole - packaging
    # Just above nothing, a little over, far over, far too much, or as usual.
    missing = dice.choices([0, -1, -80, board * 4 // 100, dice.randint(5, board // 80)], [2, 1, 1, 1, 25])[0]
    weights = {"skewers": dice.randint(100, 400), "grind": dice.randint(500, 800),
               "waste": board * dice.randint(80, 130) // 1000 + drift,
               "bones": dice.randint(50, 150) if "bones" in have else 0}
    weights["portions"] = board - missing - sum(weights.values())
    singles = [dice.randint(140, 162) for _ in range(dice.choice([0, 1, 8]))]
    enter("target", pile="portions", weight=f"{dice.choice([150] * 9 + [160])} g", tolerance="5 g")
    for grams in singles:
        enter("reading", by=cook, pile="portions", habit="piece", weight=f"{grams} g")
    weights["portions"] -= sum(singles)
    for pile, grams in weights.items():
        if pile == "waste" and dice.random() < 0.05:
            enter("by-difference", pile="waste", on=True)
        elif grams:
            half = grams // 2
            enter("reading", by=cook, pile=pile, habit="increment", weight=f"{half} g")
            wrong = enter("reading", by=cook, pile=pile, habit="increment", weight="7 g")
            enter("reading", by=cook, pile=pile, habit="increment", weight=f"{grams - half} g")
            enter("void", target=wrong)
    if dice.random() < 0.3:
        enter("wanted", pile="portions", count=24)
    for check in ("membrane", "nerve")[: dice.choices([0, 1, 2], [1, 8, 8])[0]]:
        enter("quality", by=dice.choice(people + [None]), check=check, result="fail" if dice.random() < 0.03 else "pass")
    if dice.random() < 0.5:
        enter("setting", key="wage", value="21.50")
    if dice.random() < 0.7:
        enter("labour", minutes=f"{dice.randint(12, 40)} min")
    for role in dice.sample(ROLES, dice.choice([0, 2, 3, 3, 4])):
        enter("eye-call", role=role, share=f"{dice.randint(5, 40)} %")
    if dice.random() < 0.3:
        enter("note", text="For this one")
        enter("note", text="Colder next time", next=True)
    minor = 4 if any(e["kind"] == "line" or e.get("next") for e in entries) else 1
    return {"entries": entries, "format": "tallyblock-session", "major": 1, "minor": minor, "session": session}


# ---- a session as the log sees it --------------------------------------------------------------------

def grams_of(text):
    return Fraction(text.removesuffix(" g"))


def live_entries(session):
    gone = {entry["target"] for entry in session["entries"] if entry["kind"] == "void"}
    for entry in session["entries"]:
        gone.update(entry.get("replaces", []))
    return [entry for entry in session["entries"] if entry["id"] not in gone]


class Piece:
    def __init__(self, session):
        live = live_entries(session)

        def last(kind, **fields):
            found = [e for e in live if e["kind"] == kind and all(e.get(k) == v for k, v in fields.items())]
            return found[-1] if found else {}

        names = {e["id"]: e["name"] for e in live if e["kind"] == "person"}
        settings = {e["key"]: e["value"] for e in live if e["kind"] == "setting"}
        self.id = session["session"]
        line = last("line")
        self.line, self.start = line.get("key", self.id), line.get("start", False)
        times = [e["t"] for e in session["entries"] if e["t"]]
        self.time = min(times) if times else 0
        self.name = last("piece")["name"]
        self.specification = last("specification").get("text")
        self.currency = settings["currency"]
        invoice = last("incoming", which="invoice")
        self.bought, self.pieces = grams_of(invoice["weight"]), invoice.get("count", 1)
        self.board = self.bought - grams_of(last("incoming", which="packaging").get("weight", "0 g"))
        readings = [e for e in live if e["kind"] == "reading"]
        self.roles = {e["key"]: e["role"] for e in live if e["kind"] == "pile"}
        self.weights = {key: sum((grams_of(e["weight"]) for e in readings if e["pile"] == key), Fraction())
                        for key in self.roles}
        self.missing = self.board - sum(self.weights.values())
        spread = 2 * math.sqrt((len(readings) + (2 if self.board != self.bought else 1)) / 12)
        limit = Fraction(settings.get("loss-limit", "2 %").removesuffix(" %")) / 100
        self.open = self.missing > limit * self.board or -self.missing > spread
        if last("by-difference"):
            self.weights["waste"], self.missing, self.open = self.weights["waste"] + self.missing, None, False
        by = {names.get(e.get("by")) for e in readings}
        self.cook = by.pop() if len(by) == 1 else None
        cooks = {names[e["by"]] for e in readings if "by" in e}
        checks = [e for e in live if e["kind"] == "quality"]
        self.mark = "hollow"
        if checks and all(e["result"] == "pass" for e in checks):
            others = all("by" in e and names[e["by"]] not in cooks for e in checks)
            self.mark = "solid" if others else "half"
        price = last("price", of="piece")
        amount = Fraction(price["amount"]) if price else None
        self.cost = amount if not price or price["basis"] == "total" else amount / 1000 * self.bought
        self.values = {key: Fraction(last("price", of=f"pile:{key}").get("amount", "0")) / 1000 for key in self.roles}
        self.primary = self.of_roles(0)
        minutes = [Fraction(e["minutes"].removesuffix(" min")) for e in live if e["kind"] == "labour"]
        self.minutes = sum(minutes) if minutes else None
        self.labour = self.minutes * Fraction(settings["wage"]) / 60 if minutes and "wage" in settings else None
        self.singles = [grams_of(e["weight"]) for e in readings if e["habit"] == "piece"]
        self.target = grams_of(last("target")["weight"])
        self.count_fixed = bool(last("wanted"))
        notes = [e["text"] for e in live if e["kind"] == "note" and e.get("next")]
        self.next = notes[-1] if notes else None
        self.eye = self.eye_call({e["role"]: Fraction(e["share"].removesuffix(" %")) / 100
                                  for e in live if e["kind"] == "eye-call"})

    def of_roles(self, *places):
        return sum((w for key, w in self.weights.items() if self.roles[key] in [ROLES[p] for p in places]), Fraction())

    def eye_call(self, calls):
        left = 1 - sum(calls.values())
        if len(calls) < 3 or left < 0:
            return None
        called = [calls.get(role, left) for role in ROLES]
        off = [c - self.of_roles(i) / self.bought for i, c in enumerate(called)]
        return {"called": called, "error": sum(map(abs, off)) / 2, "bias": off[0] + off[1]}

    def cost_parts(self):
        """Shares of the board that are not portions, each with its value."""
        parts = {key: (w / self.board, self.values[key]) for key, w in self.weights.items() if key != "portions"}
        if self.missing is not None:
            parts[":loss"] = (self.missing / self.board, Fraction())
        return parts

    def figure(self, name, at=None):
        """Value, low and high, or None."""
        anywhere = max(self.missing or 0, 0)
        if name in ("usable", "waste", "prime"):
            part = self.of_roles(*{"usable": (0, 1, 2), "waste": (3,), "prime": (0, 1)}[name])
            return part / self.board, part / self.board, (part + anywhere) / self.board
        if name == "cost":
            paid, values = at or (self.cost, self.values)
            if paid is None:
                return None
            net = paid - sum(w * values.get(key, 0) for key, w in self.weights.items() if key != "portions")
            return net / self.primary, net / (self.primary + anywhere), net / self.primary
        value = {"portions": statistics.stdev(self.singles) if len(self.singles) > 1 else None,
                 "eye-call": self.eye and self.eye["error"],
                 "missing": None if self.missing is None else self.missing / self.board,
                 "minutes": self.minutes if self.cook else None}[name]
        return None if value is None else (value, value, value)


# ---- what may be said ---------------------------------------------------------------------------------

def chart_of(values):
    n = len(values)
    stage = ["nothing", "one", "two", "few", "few", "few"][n] if n < 6 else "provisional" if n < 12 else "settled"
    out = {"n": n, "stage": stage, "difference": values[1] - values[0] if n == 2 else None, "few": None,
           "limits": None, "last_four": None, "signals": []}
    if stage == "few":
        out["few"] = {"median": statistics.median(values), "smallest": min(values), "largest": max(values),
                      "chance_next_between": Fraction(n - 1, n + 1)}
    if n >= 6:
        base = values[:12]
        centre = sum(base) / len(base)
        ranges = [abs(b - a) for a, b in itertools.pairwise(base)]
        mean_range = sum(ranges) / len(ranges)
        half = Fraction(266, 100) * mean_range if isinstance(centre, Fraction) else 2.66 * mean_range
        if mean_range:
            out["limits"] = {"from_first": len(base), "centre": centre, "mean_moving_range": mean_range,
                             "lower": centre - half, "upper": centre + half}
    if n >= 8:
        first, last = values[:4], values[-4:]
        answer = "all-above" if min(last) > max(first) else "all-below" if max(last) < min(first) else "no-clear-change"
        out["last_four"] = {"answer": answer, "by_luck": Fraction(1, math.comb(8, 4))}
    if n >= 12 and out["limits"]:
        out["signals"] = signals_of(values, centre, half)
    return out


def signals_of(values, centre, half):
    out = [{"kind": "beyond-limit", "first": i, "last": i, "above": v > centre}
           for i, v in enumerate(values) if abs(v - centre) > half]
    place = 0
    for side, run in itertools.groupby(values, key=lambda v: (v > centre) - (v < centre)):
        length = len(list(run))
        if side and length >= 8:
            out.append({"kind": "eight-on-one-side", "first": place, "last": place + length - 1, "above": side > 0})
        place += length
    return out


def shapley(first, second):
    """What changed, by every order in which the causes can; shares that did not change are left out."""
    labour = first.labour is not None and second.labour is not None
    a, b = first.cost_parts(), second.cost_parts()
    keys = list(a) + [key for key in b if key not in a]

    def costed(piece, parts, other):
        share = {key: parts.get(key, (0, 0))[0] for key in keys}
        value = {key: (parts[key] if key in parts else other[key])[1] for key in keys}
        paid = piece.cost / piece.board, piece.labour / piece.board if labour else Fraction()
        return {"price": paid[0], "labour": paid[1], "values": value, **{("share", key): share[key] for key in keys}}

    before, after = costed(first, a, b), costed(second, b, a)
    causes = [cause for cause in before if before[cause] != after[cause]]
    known = {}

    def cost(changed):  # a bit for each cause that is taken from the second piece
        if changed not in known:
            now = {cause: before[cause] for cause in before}
            now.update({cause: after[cause] for i, cause in enumerate(causes) if changed >> i & 1})
            shares = {key: now["share", key] for key in keys}
            credit = sum(shares[key] * now["values"][key] for key in keys)
            known[changed] = float((now["price"] + now["labour"] - credit) / (1 - sum(shares.values())))
        return known[changed]

    parts = [0.0] * len(causes)
    for order in itertools.permutations(range(len(causes))):
        changed = 0
        for cause in order:
            parts[cause] += cost(changed | 1 << cause) - cost(changed)
            changed |= 1 << cause
    parts = dict(zip(causes, (part / math.factorial(len(causes)) for part in parts)))
    return cost(0), cost((1 << len(causes)) - 1), {cause: parts.get(cause, 0.0) for cause in before}, labour


def student_t(confidence, degrees):
    """By Simpson's rule over the density and halving; good to 1e-9."""
    scale = math.exp(math.lgamma((degrees + 1) / 2) - math.lgamma(degrees / 2)) / math.sqrt(degrees * math.pi)

    def below(t):
        steps = 2000
        height = [(1 + (t * i / steps) ** 2 / degrees) ** (-(degrees + 1) / 2) for i in range(steps + 1)]
        return 0.5 + scale * t / steps / 3 * (height[0] + height[-1] + 4 * sum(height[1::2]) + 2 * sum(height[2:-1:2]))

    low, high = 0.0, 50.0
    for _ in range(50):
        middle = (low + high) / 2
        low, high = (middle, high) if below(middle) < confidence else (low, middle)
    return low


def order_of(pieces, group):
    used = [p for p in pieces if p.primary > 0]
    paid = [p for p in group if p.cost is not None]
    each = [float(p.primary / p.pieces) for p in used]
    whole = [float(p.bought / p.pieces) for p in used]
    out = {"n": len(used), "usual_piece_g": statistics.median(whole) if used else None,
           "smallest_g": min(each) if used else None, "currency": paid[-1].currency if paid else None,
           "price_per_g": paid[-1].cost / paid[-1].bought if paid else None, "order": None}
    if len(used) < 3:
        return out
    n, needed = len(used), ORDER["portions"] * ORDER["of"]
    t = student_t(float(ORDER["confidence"]), n - 1)
    mean, s = statistics.mean(each), statistics.stdev(each)
    for m in range(1, 1000):
        sure = m * (mean - t * s * math.sqrt(1 / m + 1 / n))
        if sure >= needed * (1 - 1e-9):
            out["order"] = {"pieces": m, "packs": m, "counted_on_g": sure, "needed_g": needed, "expected_g": m * mean}
            break
    return out


def series_of(line, members, start, name, at=None):
    points = []
    for place in members:
        piece = line[place]
        found = piece.figure("cost", (at[0] * piece.bought, at[1])) if at else piece.figure(name)
        if found is not None:
            points.append((place, found, {"cost": piece.currency, "minutes": piece.cook}.get(name)))
    only = points[-1][2] if points else None
    points = [point for point in points if point[2] == only]
    enters = [place >= start and line[place].mark != "hollow" and not line[place].open for place, _, _ in points]
    values = [found[0] for (_, found, _), enter in zip(points, enters) if enter]
    return {"figure": "cost-at-last-prices" if at else name, "only": only,
            "points": [{"member": place, "value": v, "low": low, "high": high, "enters": enter}
                       for (place, (v, low, high), _), enter in zip(points, enters)],
            "median": statistics.median(values) if len(values) > 2 else None, "chart": chart_of(values)}


FIGURES = ("usable", "waste", "prime", "portions", "eye-call", "missing", "cost", "minutes")


def line_of(key, line):
    line = sorted(line, key=lambda p: (p.time, p.id))
    ticks, target = [], None
    for i, piece in enumerate(line):
        if i and piece.specification != line[i - 1].specification:
            ticks.append({"kind": "specification", "member": i})
        if piece.singles:
            if target is not None and piece.target != target:
                ticks.append({"kind": "target", "member": i})
            target = piece.target
        if piece.start:
            ticks.append({"kind": "start", "member": i})
    start = max([i for i, piece in enumerate(line) if piece.start], default=0)
    groups = []
    for text in dict.fromkeys(piece.specification for piece in line):
        members = [i for i, piece in enumerate(line) if piece.specification == text]
        last = line[members[-1]]
        figures = [series_of(line, members, start, name) for name in FIGURES]
        if last.cost is not None:
            figures.append(series_of(line, members, start, "", (last.cost / last.bought, last.values)))
        comparable = [i for i in members if i >= start and line[i].mark != "hollow" and not line[i].open]
        groups.append({"specification": text, "members": members, "comparable": comparable, "figures": figures})
    latest = next(g for g in groups if g["specification"] == line[-1].specification)
    return {"line": key, "name": next((p.name for p in reversed(line) if p.name), None), "from": start,
            "ticks": ticks, "groups": groups,
            "members": [{"session": p.id, "utc_ms": p.time, "name": p.name or None, "start": p.start, "mark": p.mark,
                         "open": p.open, "cook": p.cook, "next": p.next, "board_g": p.board, "missing_g": p.missing,
                         "count_fixed": p.count_fixed, "eye_call": p.eye} for p in line],
            "changed": change_of(line, latest["members"]),
            "waste_as_usual": usual_waste(line[-1], latest["figures"][1]["median"]),
            "order": order_of([line[i] for i in latest["comparable"]], [line[i] for i in latest["members"]])}


def change_of(line, members):
    if len(members) < 2:
        return None
    first, second = line[members[-2]], line[members[-1]]
    out = {"first": members[-2], "second": members[-1], "why": "compared"}
    if first.cost is None or second.cost is None:
        out["why"] = "first-no-price" if first.cost is None else "second-no-price"
    elif first.currency != second.currency:
        out["why"] = "other-currency"
    if out["why"] != "compared":
        return {**out, "parted": None, "parts": None, "difference_per_g": None}
    a, b, parts, labour = shapley(first, second)
    shares = {cause[1]: part for cause, part in parts.items() if isinstance(cause, tuple)}
    return {**out, "parted": "parted", "with_labour": labour, "first_per_g": a, "second_per_g": b,
            "difference_per_g": b - a,
            "parts": {"price_per_g": parts["price"], "values_per_g": parts["values"],
                      "labour_per_g": parts["labour"], "shares_per_g": shares}}


def usual_waste(piece, usual):
    if usual is None or piece.cost is None:
        return None
    was = piece.of_roles(3) / piece.board
    net = piece.figure("cost")[0] * piece.primary
    # Waste is worth nothing here: what it is less is more of the portions.
    return {"usual": usual, "was": was, "cost_per_g": net / piece.primary,
            "would_be_per_g": net / (piece.primary + (was - usual) * piece.board)}


def log_of(sessions):
    lines = {}
    for session in sessions:
        piece = Piece(session)
        lines.setdefault(piece.line, []).append(piece)
    order = sorted(lines, key=lambda key: (-max(p.time for p in lines[key]), key))
    return {"log_version": 1, "lines": [line_of(key, lines[key]) for key in order]}


# ---- the two against each other ------------------------------------------------------------------------

def differences(expected, actual, place=""):
    """What of `expected` is not so in `actual`, which may hold more."""
    if isinstance(expected, dict):
        if not isinstance(actual, dict):
            return [f"{place}: an object, not {actual!r:.60}"]
        return [d for key, value in expected.items()
                for d in differences(value, actual.get(key, "absent"), f"{place}.{key}")]
    if isinstance(expected, (list, tuple)):
        if not isinstance(actual, list) or len(actual) != len(expected):
            return [f"{place}: {len(expected)} elements, not {actual!r:.60}"]
        return [d for i, value in enumerate(expected) for d in differences(value, actual[i], f"{place}[{i}]")]
    if isinstance(expected, (Fraction, float)) and isinstance(actual, (int, float)):
        near = abs(float(expected) - actual) <= 1e-9 * abs(float(expected)) + 1e-12
        return [] if near else [f"{place}: {float(expected)!r}, not {actual!r}"]
    return [] if expected == actual else [f"{place}: {expected!r}, not {actual!r}"]


def sums(log):
    """Parts that do not add up to the difference, to 1e-9 of the larger cost; and how many did."""
    bad, good = [], 0
    for line in log["lines"]:
        changed = line["changed"]
        if changed and changed["parts"]:
            parts = changed["parts"]
            total = math.fsum([parts[key] for key in parts if key != "shares_per_g"] + list(parts["shares_per_g"].values()))
            larger = max(abs(changed["first_per_g"]), abs(changed["second_per_g"]))
            if abs(total - changed["difference_per_g"]) > 1e-9 * larger:
                bad.append(f"{line['line']}: parts add up to {total}")
            good += 1
    return bad, good


def run(command, paths):
    options = ["--portions", str(ORDER["portions"]), "--of", f"{ORDER['of']} g", "--confidence", ORDER["confidence"]]
    return subprocess.run([*command, *map(str, paths), *options], capture_output=True, check=True).stdout


def main():
    command = sys.argv[1:]
    passed = failed = 0
    seen = {"signals": 0, "parted": 0, "orders": 0, "settled": 0, "hollow": 0, "open": 0, "starts": 0}

    def check(what, found):
        nonlocal passed, failed
        passed, failed = passed + (not found), failed + bool(found)
        for each in found[:5]:
            print(f"FAILED {what}: {each}")

    with tempfile.TemporaryDirectory() as folder:
        for seed in range(24):
            dice = random.Random(seed)
            sessions = [make_session(dice, dice.choice(["loins"] * 5 + ["ribs"] * 2 + [None]), day,
                                     250 if day > 26 and seed % 2 else 0) for day in range(2 * seed + 2)]
            paths = []
            for i, session in enumerate(sessions):
                paths.append(pathlib.Path(folder) / f"{seed}-{i}.json")
                paths[-1].write_text(sealed(session))
            whole = json.loads(run(command, paths))
            log = whole["log"]
            check(f"kitchen {seed}", differences(log_of(sessions), log))
            bad, good = sums(log)
            check(f"parts of kitchen {seed}", bad)
            check(f"reports of kitchen {seed}", [] if len(whole["sessions"]) == len(sessions) else ["their number"])
            twice = dice.sample(paths + paths, 2 * len(paths))
            check(f"kitchen {seed} twice and shuffled", [] if json.loads(run(command, twice)) == whole else ["differs"])
            backup = pathlib.Path(folder) / "all.jsonl"
            header = {"format": "tallyblock-backup", "major": 1, "minor": 0, "sessions": len(paths)}
            backup.write_text("\n".join([json.dumps(header), *(path.read_text() for path in paths)]) + "\n")
            check(f"backup of kitchen {seed}", [] if json.loads(run(command, [backup])) == whole else ["differs"])
            seen["parted"] += good
            for line in log["lines"]:
                charts = [f["chart"] for g in line["groups"] for f in g["figures"]]
                seen["signals"] += sum(len(chart["signals"]) for chart in charts)
                seen["settled"] += sum(chart["stage"] == "settled" for chart in charts)
                seen["orders"] += line["order"]["order"] is not None
                seen["starts"] += line["from"] > 0
                seen["hollow"] += sum(m["mark"] == "hollow" for m in line["members"])
                seen["open"] += sum(m["open"] for m in line["members"])
    check("what was looked at", [f"too few {what}: {n}" for what, n in seen.items() if n < 5])
    print(seen)
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
