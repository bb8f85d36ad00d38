# SPDX-License-Identifier: LGPL-2.1-or-later
"""What all sessions share: how they begin and end, and questions to the files that they leave.

A session is a function of a User in a module of this folder: python3 session.py PROGRAM SOURCE MODULE [--pace N]. It exits
with 77, "skipped", where the machine cannot show windows, and leaves a picture of the screen where it fails."""
import argparse
import importlib
import json
import os
import pathlib
import subprocess
import sys
import xml.etree.ElementTree as ET

SKIPPED, SPACE = 77, "{urn:downcomer:1}"


class Saved:
    """A document as it lies on the disk."""

    def __init__(self, path):
        self.bytes = pathlib.Path(path).read_bytes()
        self.project = ET.fromstring(self.bytes)

    def option(self, key=None):
        key = key or self.project.get("active")
        return next(option for option in self.project if option.get("key") == key)

    def options(self):
        return [option.get("label") for option in self.project.iter(SPACE + "option")]

    def parts(self, kind, option=None):
        """Each part of a kind as a dictionary of its attributes and fields."""
        return [dict(part.attrib, **{f.tag.removeprefix(SPACE): f.text for f in part})
                for part in self.option(option).iter(SPACE + kind)]

    def values(self, kind, field):
        return [part.get(field) for part in self.parts(kind)]


def evaluate(program, path):
    """What the command line says of a file: its exit status and its figures."""
    done = subprocess.run([program, "evaluate", "--json", path], capture_output=True, check=False, timeout=60,
                          env=dict(os.environ, LC_ALL="C.UTF-8"))
    return done.returncode, json.loads(done.stdout)


def grades(evaluation):
    return [finding["grade"] for finding in evaluation["findings"]]


def same(a, b, what):
    """An assertion that python -O does not drop."""
    from desk import Failure
    if a != b:
        raise Failure(f"{what}: {a!r} is not {b!r}")


def near(a, b, share, what):
    from desk import Failure
    if abs(a - b) > share * abs(b):
        raise Failure(f"{what}: {a!r} is not {b!r}")


def true(condition, what):
    from desk import Failure
    if not condition:
        raise Failure(what)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("source", type=pathlib.Path)
    parser.add_argument("module")
    parser.add_argument("--pace", type=float, default=0, help="1: as fast as a practised person; 0: as fast as the program")
    words = parser.parse_args()
    try:
        from desk import Desk, Failure, missing
        from user import User
        lacking = missing()
    except ImportError as error:
        lacking = [str(error)]
    if lacking:
        print("skipped: needs " + ", ".join(lacking))
        return SKIPPED
    with Desk(str(pathlib.Path(words.program).resolve())) as desk:
        desk.source = words.source
        try:
            importlib.import_module(words.module).session(User(desk, words.pace, print))
            if desk.process is not None:
                same(desk.end(), 0, "exit status")
            same(desk.complaints(), [], "warnings")
        except Failure as failure:
            print(f"{words.module}: {failure}")
            print("\n".join(desk.lines[-40:]))
            picture = pathlib.Path.cwd() / f"{words.module}.png"
            desk.screen.picture(picture)
            print(f"The screen is in {picture}")
            raise
    return 0


if __name__ == "__main__":
    sys.exit(main())
