#!/usr/bin/env python3
"""Sums the logs of `meson test`: count.py BROKEN FOLDER prints 'N passed, N failed' last; exit 1 if anything failed.

BROKEN is the number of stages that failed without a log of their own. A test that speaks TAP counts by its cases, any
other as one. A program that failed without naming a case (a crash, a leak found at exit) is one failure more.
"""
import json
import pathlib
import re
import sys

CASE = re.compile(r"^(not ok|ok)\b[^#\n]*(#\s*(skip|todo)\b.*)?", re.IGNORECASE | re.MULTILINE)


def count(test):
    passed = failed = 0
    for verdict, directive, _kind in CASE.findall(test.get("stdout", "")):
        if directive:
            continue
        if verdict.lower() == "ok":
            passed += 1
        else:
            failed += 1
    if test["result"] in ("OK", "EXPECTEDFAIL"):
        return max(passed, 1), 0
    if test["result"] == "SKIP":
        return passed, 0
    return passed, max(failed, 1)


def main(broken, folder):
    passed, failed = 0, broken
    for log in sorted(folder.glob("*.json")):
        with log.open(encoding="utf-8") as lines:
            for test in map(json.loads, lines):
                good, bad = count(test)
                passed += good
                failed += bad
                if bad:
                    print(f"failed: {test['name']} ({log.stem})")
                elif test["result"] == "SKIP":
                    print(f"skipped: {test['name']} ({log.stem})")
    if not passed:
        failed = max(failed, 1)  # no test ran: nothing has been shown
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), pathlib.Path(sys.argv[2])))
