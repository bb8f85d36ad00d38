# SPDX-License-Identifier: LGPL-2.1-or-later
"""The job that both building sessions do, and how its result is judged: a system of three pipes for a stand that is narrow,
deep for its width and has a small door."""
from session import Saved, evaluate, grades, near, same, true

SIZES = [("Tank length, outside", "1180", "tank", "length"), ("Tank width, outside", "540", "tank", "width"),
         ("Tank height, outside", "580", "tank", "height"), ("Stand length, inside", "1090", "stand", "length"),
         ("Stand width, inside", "470", "stand", "width"), ("Stand height, inside", "880", "stand", "height"),
         ("Door width", "620", "stand", "door-width"), ("Door height", "790", "stand", "door-height")]
ROLES = ["emergency", "siphon", "trickle"]


def judge(user, path):
    """The saved file has what was entered, is sound, opens again as it was, and is judged alike without a window."""
    desk, saved = user.desk, Saved(path)
    for name, millimetres, kind, field in SIZES:
        near(float(saved.values(kind, field)[0]), float(millimetres) / 1000, 1e-12, name)
    same(sorted(saved.values("drain", "role")), ROLES, "the three pipes")
    same(len(saved.parts("pump")), 1, "pumps")
    near(float(saved.values("sump", "length")[0]), 0.61, 1e-12, "length of the sump")
    types = [fitting["type"] for fitting in saved.parts("fitting")]
    true("ball-valve" in " ".join(types) and "gate-valve" in types and "union" in types, f"valves and a union in {types}")
    status, figures = evaluate(desk.program, path)
    same(status, 0, "exit status of evaluate")
    same("stop" in grades(figures), False, "a stop finding")
    shown = user.reads("label", "Sound: no stop finding.*", r"Return ([\d ]+) L/h").group(1).replace(" ", "")
    near(float(shown), figures["flow"]["return_m3_per_s"] * 3.6e6, 0.005, "the flow in the window")

    line = user.find("label", "Sound: no stop finding.*").name
    same(desk.end(), 0, "exit status")
    desk.start(path)
    same(user.find("label", "Sound: no stop finding.*").name, line, "what is said of the file when it is opened again")
    same(Saved(path).bytes, saved.bytes, "the file after it was opened")
    same(evaluate(desk.program, path), (status, figures), "the evaluation of the file")
