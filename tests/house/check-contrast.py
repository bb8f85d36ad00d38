#!/usr/bin/env python3
"""Reads the style sheets of the window: every colour of text is readable on every ground that it may stand on.

WCAG 2.1: text 4.5 : 1 (1.4.3, level AA), what marks focus, choice or refusal 3 : 1 (1.4.11). Exit 1 names each pair.
"""
import pathlib
import re
import sys

TEXT, MARK = 4.5, 3.0
GROUNDS = ("dc_ground", "dc_sheet")


def luminance(rgb):
    linear = [c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in rgb]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(a, b):
    low, high = sorted((luminance(a), luminance(b)))
    return (high + 0.05) / (low + 0.05)


def mixed(top, share, below):
    return tuple(share * t + (1 - share) * b for t, b in zip(top, below))


def colors_of(path):
    found = re.findall(r"@define-color (\w+) #([0-9a-f]{6});", path.read_text(encoding="utf-8"))
    return {name: tuple(int(code[i:i + 2], 16) / 255 for i in (0, 2, 4)) for name, code in found}


def used(style, prop):
    """The named colours that a property of the shared sheet takes."""
    return set(re.findall(r"(?:^|[\s;{])" + prop + r":[^;}]*?@(\w+)", style))


def main(folder):
    style = re.sub(r"/\*.*?\*/", "", (folder / "style.css").read_text(encoding="utf-8"), flags=re.DOTALL)
    text = used(style, "color")
    marks = used(style, "outline") | used(style, "box-shadow") | {"dc_selected", "dc_stop"}
    tints = [(name, float(share)) for name, share in re.findall(r"background: alpha\(@(\w+), ([0-9.]+)\)", style)]
    fades = [float(share) for share in re.findall(r"opacity: ([0-9.]+)", style)]
    wrong = []
    if re.search(r"(?:^|[\s;{])color: #", style) or not text or not tints:
        wrong.append("style.css: colours are named in the sheets of the grounds, and only there")
    for path in sorted(folder.glob("style-*.css")):
        colors = colors_of(path)
        missing = (text | marks | set(GROUNDS)) - set(colors)
        if missing:
            wrong.append(f"{path.name}: {', '.join(sorted(missing))} not defined")
            continue
        grounds = {name: colors[name] for name in GROUNDS}
        for name, share in tints:
            grounds |= {f"{name} {share} on {below}": mixed(colors[name], share, colors[below]) for below in GROUNDS}
        for where, ground in grounds.items():
            pairs = [(name, colors[name], TEXT) for name in text] + [(name, colors[name], MARK) for name in marks]
            pairs += [(f"dc_ink at {share}", mixed(colors["dc_ink"], share, ground), TEXT) for share in fades]
            for name, color, least in pairs:
                if contrast(color, ground) < least:
                    wrong.append(f"{path.name}: {name} on {where} has {contrast(color, ground):.2f} : 1, not {least}")
    print("\n".join(wrong) if wrong else f"{len(text)} colours of text and {len(marks)} of marks can be read")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1])))
