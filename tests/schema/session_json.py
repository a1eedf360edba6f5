"""Canonical text and check of a session file, written apart from the core (see core/entries/FORMAT.md)."""
import json
import zlib


class Number(str):
    """A number that is not an integer, as it was written."""


def parse(text):
    def members(pairs):
        keys = [key for key, _ in pairs]
        if len(set(keys)) != len(keys):
            raise ValueError("a key twice")
        return dict(pairs)

    def constant(name):
        raise ValueError(f"no JSON: {name}")

    return json.loads(text, parse_float=Number, parse_constant=constant, object_pairs_hook=members)


def canonical(value):
    if isinstance(value, Number):
        return str(value)
    if isinstance(value, dict):
        members = sorted(value.items(), key=lambda item: item[0].encode())
        return "{" + ",".join(canonical(k) + ":" + canonical(v) for k, v in members) + "}"
    if isinstance(value, list):
        return "[" + ",".join(canonical(item) for item in value) + "]"
    return json.dumps(value, ensure_ascii=False)


def check_of(session):
    rest = {key: value for key, value in session.items() if key != "check"}
    return f"{zlib.crc32(canonical(rest).encode()):08x}"


def order(entry):
    writer, counter = entry["id"].split(".")
    return entry["seq"], writer, int(counter)


def sealed(session):
    """The canonical text with entries in order and the right check."""
    session = dict(session, entries=sorted(session["entries"], key=order))
    return canonical(dict(session, check=check_of(session)))
