#!/usr/bin/python3
"""Every #include of core/ is a standard header, a header of nlohmann's, or a file of core/ itself."""
import pathlib
import re
import sys

TOP = pathlib.Path(__file__).resolve().parents[2]
STANDARD = re.compile(r"<[a-z0-9_]+>")  # <vector>, never <unistd.h>
JSON = re.compile(r"<nlohmann/[a-z_]+\.hpp>")


def refused(path):
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        match = re.match(r"\s*#\s*(include|import|embed|if\w*\s+.*__EMSCRIPTEN__)\s*(.*)", line)
        if not match:
            continue
        what = re.sub(r"\s*//.*", "", match.group(2)).strip()
        if STANDARD.fullmatch(what) or JSON.fullmatch(what):
            continue
        own = (path.parent / what.strip('"')).resolve()
        if what.startswith('"') and own.is_file() and (TOP / "core") in own.parents:
            continue
        yield f"{path.relative_to(TOP)}:{number}: the core may not use: {line.strip()}"


def main():
    files = sorted(p for p in (TOP / "core").rglob("*") if p.suffix in (".h", ".cpp"))
    findings = [finding for path in files for finding in refused(path)]
    print(*findings, sep="\n")
    print(f"{len(files) - len(findings)} passed, {len(findings)} failed")
    return 1 if findings or not files else 0


sys.exit(main())
