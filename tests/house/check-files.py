#!/usr/bin/env python3
"""Reads the project's own text files for the small rules of the house (DEVELOPERS.md): exit 1 names each broken one.

A file over 500 lines is mentioned, one over 600 fails. Every C file says its licence, every header is included once,
nothing is left half done, and no file knows the folders of one person's machine.
"""
import pathlib
import re
import sys

LICENCE = "SPDX-License-Identifier: LGPL-2.1-or-later"
LONG, TOO_LONG = 500, 600
# Written apart, or this file would find itself.
LEFT_OVER = re.compile(r"\b(" + "|".join(["TO" + "DO", "FIX" + "ME", "XX" + "X", "HA" + "CK"]) + r")\b")
MACHINE = re.compile(r"""(?<![\w.$}/-])/(tmp|work|home|root|Users)/\w""")
TEXT = {".c", ".h", ".py", ".sh", ".ui", ".css", ".build", ".md", ".xml", ".in", ".rng", ".json", ""}


def own_files(root):
    for folder in ("src", "tests", "ui", "resources", "po", "flatpak", ".ci"):
        yield from sorted((root / folder).rglob("*"))
    yield from (root / name for name in ("run", "check", "meson.build", "meson_options.txt", "README.md",
                                         "DEVELOPERS.md", "NEWS"))


def faults(root, path):
    name = path.relative_to(root)
    try:
        text = path.read_bytes().decode("utf-8")
    except UnicodeDecodeError:
        yield f"{name}: not UTF-8"
        return
    lines = text.splitlines()
    if path.suffix in (".c", ".h"):
        if not lines or LICENCE not in lines[0]:
            yield f"{name}:1: the first line says {LICENCE}"
        if len(lines) > TOO_LONG:
            yield f"{name}: {len(lines)} lines; a subject is missing a name"
    if path.suffix == ".h" and "#pragma once" not in lines:
        yield f"{name}: a header starts with #pragma once"
    for number, line in enumerate(lines, 1):
        if line != line.rstrip():
            yield f"{name}:{number}: space at the end of the line"
        if "\t" in line:
            yield f"{name}:{number}: a tab"
        if LEFT_OVER.search(line):
            yield f"{name}:{number}: finish it, or say in DEVELOPERS.md that it is not done"
        if MACHINE.search(line):
            yield f"{name}:{number}: a path of one machine"
    if text and not text.endswith("\n"):
        yield f"{name}: no newline at the end"


def main(root):
    wrong, read = [], 0
    for path in own_files(root):
        # Inputs of tests are as they are: some are broken on purpose.
        if not path.is_file() or path.suffix not in TEXT or {"corpus", "data", "tables", "__pycache__"} & set(path.parts):
            continue
        read += 1
        wrong += faults(root, path)
        if path.suffix in (".c", ".h"):
            lines = path.read_bytes().count(b"\n")
            if LONG < lines <= TOO_LONG:
                print(f"# {path.relative_to(root)}: {lines} lines, close to too long")
    print("\n".join(wrong) if wrong else f"{read} files keep the rules")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1])))
