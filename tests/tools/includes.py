#!/usr/bin/python3
"""Who may include whom: what the rooms of core/ and the folders of web/ may use, and what of them others may.

Every #include of core/ is a standard header, a header of nlohmann's, or a file of a room below it in
ROOMS. inside/ of a room is its own; tests/core and tests/bench may look into it. Each public header has
tests/core/NAME_test.cpp. A folder of web/ uses of this tree what FOLDERS says, a room of web/app what
APP_ROOMS says, a folder of web/screens nothing of another one.
"""
import pathlib
import re
import sys

TOP = pathlib.Path(__file__).resolve().parents[2]
STANDARD = re.compile(r"<[a-z0-9_]+>")  # <vector>, never <unistd.h>
C_HEADER = re.compile(r"<(assert|ctype|errno|float|limits|math|signal|std(arg|def|int|io|lib)|string|time)\.h>")
JSON = re.compile(r"<nlohmann/[a-z_]+\.hpp>")

# A room, and those right below it; what these may use, it may use too.
ROOMS = {
    "base": [],
    "typed": ["base"],
    "json": ["typed"],
    "entries": ["json"],
    "formulas": ["typed"],
    "session": ["entries", "formulas"],
    "cutting": ["session"],
    "log": ["session"],
    "report": ["cutting", "log"],
}
# A folder of web/, and what it may use beside its own files. web/platform puts everything together.
FOLDERS = {
    "kit": (),
    "words": ("core/base",),
    "figures": ("core", "web/words"),
    "app": ("core", "web/words", "web/figures"),
    "screens": ("core", "web/words", "web/figures", "web/app", "web/kit"),
    "platform": ("core", "web"),
}
# The rooms of web/app, and those right below each; what these may use, it may use too. Of the files beside the
# rooms, which put them together, they may use the outside world as interfaces.
APP_ROOMS = {
    "keeper": [],
    "desk": ["keeper"],
    "shelf": ["desk"],
    "keypad": ["shelf"],
    "acts": ["keypad"],
    "porter": ["shelf"],
    "logbook": ["shelf"],
}
OUTSIDE_OF_APP = ("store.h", "host.h")
# Puts the words of all features into one text.
GATHERS_WORDS = "web/words/packed.cpp"
LOOKS_INSIDE = ("tests/core/", "tests/bench/")


def below(room, rooms=None):
    rooms = ROOMS if rooms is None else rooms
    found = set(rooms[room])
    for other in rooms[room]:
        found |= below(other, rooms)
    return found


def room_of(path):
    """The room of a file of core/, and whether it is inside."""
    parts = path.relative_to(TOP / "core").parts
    return parts[0], len(parts) > 2 and parts[1] == "inside"


def includes(path):
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        code = re.sub(r"/\*.*?\*/", " ", line)
        match = re.match(r"\s*(?:#|%:)\s*(include|import|embed|(?:el)?if\w*\s+.*__EMSCRIPTEN__)\s*(.*)", code)
        if match:
            yield number, line.strip(), re.sub(r"\s*//.*", "", match.group(2)).strip()


def file_meant(path, what):
    """The file of the tree that an include in quotes names, or None."""
    if not what.startswith('"'):
        return None
    for folder in (path.parent, TOP):
        meant = (folder / what.strip('"')).resolve()
        if meant.is_file() and TOP in meant.parents:
            return meant
    return None


def refused_in_core(path):
    own_room, _ = room_of(path)
    for number, line, what in includes(path):
        where = f"{path.relative_to(TOP)}:{number}"
        if STANDARD.fullmatch(what) or JSON.fullmatch(what):
            continue
        meant = file_meant(path, what)
        if meant is None or (TOP / "core") not in meant.parents:
            yield f"{where}: the core may not use: {line}"
            continue
        room, inside = room_of(meant)
        if room == own_room:
            continue
        if inside:
            yield f"{where}: inside/ of another room: {line}"
        elif room not in below(own_room):
            yield f"{where}: {own_room} may use {', '.join(sorted(below(own_room))) or 'no room'} only: {line}"


def refused_outside(path):
    name = str(path.relative_to(TOP))
    folder = path.relative_to(TOP).parts[1]
    if name.startswith("web/") and folder not in FOLDERS:
        yield f"{name}: no folder of web/ is called so"
        return
    for number, line, what in includes(path):
        if not what:  # a condition on the compiler, which only the core may not have
            continue
        if not re.fullmatch(r'"[^"]+"|<[^>]+>', what):
            yield f"{name}:{number}: a file is included by its name alone: {line}"
            continue
        if re.match(r"<(core|web|tests)/", what):
            yield f"{name}:{number}: files of this tree are included in quotes: {line}"
            continue
        if C_HEADER.fullmatch(what):
            yield f"{name}:{number}: the header of C++ has another name: {line}"
            continue
        meant = file_meant(path, what)
        if meant is None:
            continue
        used = str(meant.relative_to(TOP))
        if used.startswith("core/") and room_of(meant)[1] and not name.startswith(LOOKS_INSIDE):
            yield f"{name}:{number}: inside/ of a room of the core: {line}"
        if not name.startswith("web/") or used.startswith(f"web/{folder}/"):
            continue
        if name == GATHERS_WORDS and meant.name.startswith("words_"):
            continue
        if not used.startswith(tuple(f"{one}/" for one in FOLDERS[folder])):
            may = ", ".join(FOLDERS[folder]) or "nothing else of this tree"
            yield f"{name}:{number}: web/{folder} may use {may}: {line}"


def refused_in_app(path):
    """Between the rooms of web/app."""
    parts = path.relative_to(TOP / "web/app").parts
    if len(parts) == 1:
        return
    own_room = parts[0]
    if own_room not in APP_ROOMS or len(parts) > 2:
        yield f"{path.relative_to(TOP)}: no room of web/app is called so"
        return
    may = below(own_room, APP_ROOMS) | {own_room}
    for number, line, what in includes(path):
        meant = file_meant(path, what)
        if meant is None or TOP / "web/app" not in meant.parents:
            continue
        used = meant.relative_to(TOP / "web/app").parts
        if used[0] not in (OUTSIDE_OF_APP if len(used) == 1 else may):
            yield f"{path.relative_to(TOP)}:{number}: {own_room} may use {', '.join(sorted(may))} only: {line}"


def refused_in_screens(path):
    """A folder of web/screens is one feature; what several share lies beside the folders."""
    parts = path.relative_to(TOP / "web/screens").parts
    for number, line, what in includes(path):
        meant = file_meant(path, what)
        if meant is None or TOP / "web/screens" not in meant.parents:
            continue
        used = meant.relative_to(TOP / "web/screens").parts
        if len(used) > 1 and used[0] != parts[0]:
            yield f"{path.relative_to(TOP)}:{number}: of the screen {used[0]} alone: {line}"


def untested(header):
    room, inside = room_of(header)
    if inside or header.parent.name == "data":
        return
    test = TOP / "tests/core" / f"{header.stem}_test.cpp"
    if not test.is_file():
        yield f"{header.relative_to(TOP)}: there is no {test.relative_to(TOP)}"


def main():
    def sources(folder):
        return sorted(p for p in (TOP / folder).rglob("*") if p.suffix in (".h", ".cpp"))

    core = sources("core")
    others = sources("web") + sources("tests")
    findings = [f"{p.relative_to(TOP)}: no room of core/ is called so" for p in core
                if room_of(p)[0] not in ROOMS]
    findings += [f for path in core if room_of(path)[0] in ROOMS for f in refused_in_core(path)]
    findings += [f for path in others for f in refused_outside(path)]
    findings += [f for path in sources("web/app") for f in refused_in_app(path)]
    findings += [f for path in sources("web/screens") for f in refused_in_screens(path)]
    findings += [f for path in core if path.suffix == ".h" for f in untested(path)]
    print(*findings, sep="\n")
    looked_at = len(core) + len(others)
    print(f"{max(0, looked_at - len(findings))} passed, {len(findings)} failed")
    return 1 if findings or not core else 0


sys.exit(main())
