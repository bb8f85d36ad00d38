#!/usr/bin/env python3
"""Compares po/POTFILES with the tree: every file with sentences for a reader is listed, and every listed file exists.

check-potfiles.py ROOT --fix writes the list anew.
"""
import pathlib
import re
import sys

MARKED = re.compile(r"(?<![A-Za-z0-9_])(_|N_|C_|NC_|Q_|P_|ngettext|g_dngettext|g_dgettext|g_dpgettext2?)\s*\(")
COMMENT = re.compile(r"/\*.*?\*/|//[^\n]*|^\s*#\s*define[^\n]*", re.DOTALL | re.MULTILINE)


def wanted(root):
    for path in sorted(p for p in (root / "src").rglob("*") if p.suffix in (".c", ".h", ".inc")):
        if MARKED.search(COMMENT.sub("", path.read_text(encoding="utf-8"))):
            yield path
    for path in sorted((root / "ui").rglob("*.ui")):
        if "translatable=" in path.read_text(encoding="utf-8"):
            yield path
    for pattern in ("*.desktop.in", "*.metainfo.xml.in", "*.gschema.xml"):
        yield from sorted((root / "resources").glob(pattern))


def main(root, fix):
    potfiles = root / "po" / "POTFILES"
    lines = potfiles.read_text(encoding="utf-8").splitlines()
    listed = [line.strip() for line in lines if line.strip() and not line.startswith("#")]
    should = sorted(str(path.relative_to(root)) for path in wanted(root))
    if fix:
        listed = should
        potfiles.write_text("\n".join([line for line in lines if line.startswith("#")] + should) + "\n", encoding="utf-8")
    wrong = [f"po/POTFILES: add {name}" for name in should if name not in listed]
    wrong += [f"po/POTFILES: {name} has nothing to translate, or is not there" for name in listed if name not in should]
    if listed != sorted(listed):
        wrong.append("po/POTFILES: keep the names in order (LC_ALL=C sort)")
    if wrong:
        wrong.append("tests/house/check-potfiles.py . --fix mends it")
    print("\n".join(wrong) if wrong else f"{len(listed)} files listed")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1]), "--fix" in sys.argv[2:]))
