#!/usr/bin/env python3
"""Reads the #include lines of src against the arrows of the house (DEVELOPERS.md): exit 1 names each wrong one."""
import pathlib
import re
import sys

USES = {
    "units": set(),
    "hydraulics": {"units"},
    "design": {"hydraulics", "units"},
    "solver": {"design", "hydraulics", "units"},
    "report": {"solver", "design", "hydraulics", "units"},
    "files": {"design", "units"},
    "drawing": {"report", "solver", "design", "hydraulics", "units"},
    "sheet": {"drawing", "report", "solver", "design", "hydraulics", "units"},
    "cli": {"sheet", "drawing", "report", "solver", "files", "design", "hydraulics", "units"},
    "app": {"sheet", "drawing", "report", "solver", "files", "design", "hydraulics", "units"},
}
# The places of the program are folders of app: what they share is in common, and the window puts them together.
PLACES = ["bench", "canvas", "findings", "inspector", "options", "rehearsal", "start"]
USES_IN_APP = {"common": set(), "window": {"common", *PLACES}} | {place: {"common"} for place in PLACES}
TOOLKIT = re.compile(r"^(gtk|gdk|gsk|gio|glib-object|gobject|cairo|pango|libxml|json-glib)")
MAY_KNOW = {
    "report": ("glib",),
    "files": ("gio", "glib-object", "libxml"),
    "drawing": ("cairo", "pango", "glib-object"),
    "sheet": ("cairo", "pango", "glib-object", "gio"),
    "cli": ("gio", "glib-object", "cairo"),
    "app": ("gtk", "gdk", "gsk", "gio", "glib-object", "cairo", "pango"),
}


def main(src):
    wrong = []
    for path in sorted(src.rglob("*.[ch]")):
        layer = path.relative_to(src).parts[0]
        if layer not in USES:
            continue
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
            match = re.match(r'\s*#\s*include\s*([<"])([^>"]+)[>"]', line)
            if not match:
                continue
            quoted, name = match.group(1) == '"', match.group(2)
            first = name.split("/")[0]
            if quoted and "/" in name and first in USES and first != layer and first not in USES[layer]:
                wrong.append(f"{path}:{number}: {layer} must not know {name}")
            if quoted and layer == "app" and first == "app" and name.count("/") == 2:
                room, other = path.relative_to(src).parts[1], name.split("/")[1]
                if room != other and other not in USES_IN_APP.get(room, set()):
                    wrong.append(f"{path}:{number}: app/{room} must not know {name}")
            if not quoted and TOOLKIT.match(name) and not name.startswith(MAY_KNOW.get(layer, ("\0",))):
                wrong.append(f"{path}:{number}: {layer} must not know <{name}>")
    print("\n".join(wrong) if wrong else "the arrows point one way")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1])))
