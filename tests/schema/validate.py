#!/usr/bin/env python3
"""Validates session files with python3-jsonschema, which knows nothing of the core.

  validate.py              every golden and demo session must be valid and carry the right check;
                           each spoiled copy below must be refused by the schema or by the check
  validate.py --seal FILE  writes FILE again as canonical text with the right check
"""
import copy
import pathlib
import sys

import jsonschema

from session_json import Number, canonical, check_of, parse, sealed

ROOT = pathlib.Path(__file__).resolve().parents[2]
MAX_BYTES = 2 * 1024 * 1024


def schema_validator():
    schema = parse((ROOT / "core/entries/session.schema.json").read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


def plain(value):
    """Numbers as Python numbers, for the validator."""
    if isinstance(value, Number):
        return float(value)
    if isinstance(value, dict):
        return {key: plain(item) for key, item in value.items()}
    if isinstance(value, list):
        return [plain(item) for item in value]
    return value


def problems(validator, raw):
    """What is wrong with the bytes of a file, as a list of sentences."""
    if len(raw) > MAX_BYTES:
        return ["larger than 2 MB"]
    try:
        session = parse(raw.decode("utf-8"))
    except (UnicodeDecodeError, ValueError, RecursionError) as error:
        return [f"no JSON in UTF-8: {error}"]
    found = [error.message[:160] for error in validator.iter_errors(plain(session))]
    if found:
        return found
    if session["check"] != check_of(session):
        found.append(f"check is {session['check']}, should be {check_of(session)}")
    ids = [entry["id"] for entry in session["entries"]]
    if len(set(ids)) != len(ids):
        found.append("an id twice")
    return found


def sessions_to_accept():
    for path in sorted(ROOT.glob("tests/golden/*.json")):
        yield path.relative_to(ROOT), path.read_bytes().rstrip(b"\n")
    for path in sorted(ROOT.glob("demo-data/**/*.json")):
        raw = path.read_bytes().rstrip(b"\n")
        if b'"tallyblock-session"' in raw and b"\n" not in raw:
            yield path.relative_to(ROOT), raw
    for path in sorted(ROOT.glob("demo-data/**/*.jsonl")):  # a backup: a header, then a session a line
        for number, line in enumerate(path.read_bytes().splitlines()[1:], start=2):
            yield f"{path.relative_to(ROOT)} line {number}", line


def entry_of(session, kind):
    return next(entry for entry in session["entries"] if entry["kind"] == kind)


# name -> (kind of entry to spoil or None for the file, field, value; Ellipsis removes the field).
# Each is sealed again, so that only the schema can refuse it.
SPOILED = {
    "format of another program": (None, "format", "other"),
    "newer major version": (None, "major", 2),
    "minor version as text": (None, "minor", "0"),
    "no session id": (None, "session", ...),
    "session id with a letter outside the alphabet": (None, "session", "u" * 20),
    "entries as an object": (None, "entries", {}),
    "left_out with a number": (None, "left_out", [1]),
    "entry without id": ("piece", "id", ...),
    "entry without kind": ("piece", "kind", ...),
    "id without counter": ("piece", "id", "aaaaaaaaaa"),
    "counter with a leading zero": ("piece", "id", "aaaaaaaaaa.01"),
    "seq zero": ("piece", "seq", 0),
    "seq beyond 2^53": ("piece", "seq", 2**53),
    "seq as text": ("piece", "seq", "1"),
    "time before 1970": ("piece", "t", -1),
    "offset of a day": ("piece", "tz", 1440),
    "replaces as text": ("piece", "replaces", "aaaaaaaaaa.1"),
    "by without counter": ("piece", "by", "aaaaaaaaaa"),
    "name as number": ("piece", "name", 5),
    "name with a control character": ("piece", "name", "a\tb"),
    "name of 201 characters": ("piece", "name", "n" * 201),
    "note of 4001 characters": ("note", "text", "n" * 4001),
    "key in capitals": ("pile", "key", "Portions"),
    "unknown role of this version": ("pile", "role", "display"),
    "unknown habit of this version": ("reading", "habit", "by-camera"),
    "weight as number": ("reading", "weight", 226),
    "weight without unit": ("reading", "weight", "226"),
    "weight below zero": ("reading", "weight", "-226 g"),
    "count zero": ("reading", "count", 0),
    "covers with a number": ("reading", "covers", [3]),
    "incoming weight of no known sort": ("incoming", "which", "guessed"),
    "price per mass without unit": ("price", "unit", ...),
    "price of nothing known": ("price", "of", "cut"),
    "price below zero for the piece": ("price", "amount", "-1"),
    "currency in small letters": ("price", "currency", "eur"),
    "quality neither pass nor fail": ("quality", "result", "maybe"),
    "labour with neither": ("labour", "minutes", ...),
    "share over words": ("eye-call", "share", "most"),
    "mark without unit": ("cut", "mark", "42"),
    "void of nothing": ("void", "target", ...),
    "by-difference with text": ("by-difference", "on", "yes"),
}

# The same of the kinds of version 1.1.
SPOILED_CUTTING = {
    "station without a width": ("station", "width", ...),
    "station with a depth without unit": ("station", "depth", "70"),
    "limits of five long pieces": ("plan-limits", "k-max", 5),
    "wanted of no pile": ("wanted", "pile", ...),
    "long piece without a weight": ("long-piece", "weight", ...),
    "face without a depth": ("face", "depth", ...),
}
# And of those of version 1.2.
SPOILED_CLOSED = {
    "closed, but which cut": ("cut-closed", "cut", ...),
    "closed by number": ("cut-closed", "cut", 10),
}
# And of the fields of version 1.3.
SPOILED_PIECES = {
    "price for no pieces": ("price", "pieces", 0),
    "price for pieces in words": ("price", "pieces", "24"),
    "price for weightless pieces": ("price", "piece-weight", "-5 oz"),
    "quoted yield of nothing": ("price", "quoted-yield", "0 %"),
}
# And of those of version 1.4.
SPOILED_LINE = {
    "line without a key": ("line", "key", ...),
    "line with a key in capitals": ("line", "key", "Strip-Loin"),
    "start in words": ("line", "start", "yes"),
    "a note for the next piece, by number": ("note", "next", 1),
}


def spoiled_files():
    for golden, spoilt in (("cutting", SPOILED_CUTTING), ("cut-closed", SPOILED_CLOSED),
                           ("piece-price", SPOILED_PIECES), ("line", SPOILED_LINE),
                           ("every-kind", SPOILED)):
        good = parse((ROOT / f"tests/golden/{golden}.json").read_text())
        for name, (kind, field, value) in spoilt.items():
            session = copy.deepcopy(good)
            target = session if kind is None else entry_of(session, kind)
            if value is ...:
                del target[field]
            else:
                target[field] = value
            yield name, canonical(dict(session, check=check_of(session))).encode()
    good = parse((ROOT / "tests/golden/every-kind.json").read_text())
    raw = canonical(good).encode()
    yield "one figure changed, old check", raw.replace(b'"226 g"', b'"227 g"')
    yield "the same key twice", raw.replace(b'"major":1', b'"major":1,"major":1')
    yield "cut off in the middle", raw[: len(raw) // 2]
    yield "UTF-16", raw.decode().encode("utf-16")
    yield "Latin-1", raw.decode().replace("“", "ä").replace("”", "ä").replace("–", "-").encode("latin-1")
    twice = copy.deepcopy(good)
    twice["entries"].append(twice["entries"][0])
    yield "an entry twice", canonical(dict(twice, check=check_of(twice))).encode()


def main():
    if sys.argv[1:2] == ["--seal"]:
        path = pathlib.Path(sys.argv[2])
        path.write_text(sealed(parse(path.read_text())))
        return 0
    validator = schema_validator()
    passed = failed = 0
    for label, raw in sessions_to_accept():
        found = problems(validator, raw)
        if not found and sealed(parse(raw.decode())).encode() != raw:
            found = ["not canonical text"]
        passed, failed = passed + (not found), failed + bool(found)
        for problem in found:
            print(f"FAILED {label}: {problem}")
    for label, raw in spoiled_files():
        found = problems(validator, raw)
        passed, failed = passed + bool(found), failed + (not found)
        if not found:
            print(f"FAILED accepted, but spoiled: {label}")
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
