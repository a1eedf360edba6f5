#!/usr/bin/python3
"""notices.py OUTPUT IMGUI_DIR EMSCRIPTEN_DIR: the licences of what others wrote and the app contains.

Every text comes from the installed packages and unpacked sources themselves, so that it belongs to
the version which was really built in. Fails when one is not found: a site without its notices must
not be built.
"""
import pathlib
import re
import sys

RULE = "=" * 80


def read(path):
    try:
        return pathlib.Path(path).read_text(encoding="utf-8")
    except OSError:
        sys.exit(f"The licence notice {path} is missing, so the site cannot be built.")


class DebianCopyright:
    """A package's copyright file, in Debian's machine-readable form."""

    def __init__(self, path):
        self.path = path
        self.stanzas = [self._fields(text) for text in re.split(r"\n\s*\n", read(path))]

    @staticmethod
    def _fields(text):
        fields = {}
        for name, value in re.findall(r"^([A-Z][\w-]*):(.*(?:\n[ \t].*)*)", text, re.M):
            lines = [line.strip(" \t") if line.strip() != "." else "" for line in value.split("\n")]
            fields[name] = "\n".join(lines).strip()
        return fields

    def _missing(self, what):
        sys.exit(f"{self.path} does not hold {what}, so the site cannot be built.")

    def copyright_of(self, files):
        for stanza in self.stanzas:
            if files in stanza.get("Files", "").split():
                return stanza.get("Copyright", "")
        self._missing(f"a notice for {files}")

    def licence(self, name):
        for stanza in self.stanzas:
            first, _, text = stanza.get("License", "").partition("\n")
            if first == name and text and ("Files" not in stanza or len(text) > 400):
                return text
        self._missing(f"the text of {name}")


def end_of(path, start):
    """The licence at the end of one of the stb headers, without the comment signs."""
    text = read(path)
    if start not in text:
        sys.exit(f"{path} does not end with its licence, so the site cannot be built.")
    return text[text.rindex(start):].replace("*/", "").strip("-\n ")


def notices(imgui, emscripten):
    inter = DebianCopyright("/usr/share/doc/fonts-inter/copyright")
    json = DebianCopyright("/usr/share/doc/nlohmann-json3-dev/copyright")
    tools = DebianCopyright(emscripten.parent / "doc/emscripten/copyright")
    yield ("Inter, the font (a part of it, with its digits changed to those of one width)",
           "Copyright " + inter.copyright_of("*"), inter.licence("OFL-1.1"))
    yield "Dear ImGui", read(imgui / "LICENSE.txt")
    yield ("stb_truetype, stb_rect_pack and stb_textedit, inside Dear ImGui",
           end_of(imgui / "imstb_truetype.h", "This software is available under 2 licenses"))
    yield ("JSON for Modern C++", "Copyright " + json.copyright_of("*"),
           "Copyright " + json.copyright_of("include/nlohmann/detail/conversions/to_chars.hpp"),
           "Copyright " + json.copyright_of("include/nlohmann/detail/output/serializer.hpp"),
           json.licence("Expat"))
    yield ("Emscripten, the code between WebAssembly and the browser",
           "Copyright " + tools.copyright_of("*"), tools.licence("Expat"))
    yield ("musl, the C library inside the WebAssembly",
           read(emscripten / "system/lib/libc/musl/COPYRIGHT"))
    yield ("libc++, libc++abi and compiler-rt of the LLVM Project, inside the WebAssembly",
           tools.licence("Apache-2.0 with LLVM exception"))


def main(output, imgui, emscripten):
    parts = ["Tallyblock contains work of others. Their notices follow."]
    for title, *texts in notices(pathlib.Path(imgui), pathlib.Path(emscripten)):
        parts.append("\n".join([RULE, title, RULE]))
        parts.extend(text.strip() for text in texts)
    pathlib.Path(output).write_text("\n\n".join(parts) + "\n", encoding="utf-8")


main(*sys.argv[1:])
