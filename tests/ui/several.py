# SPDX-License-Identifier: LGPL-2.1-or-later
"""A second display tank on the sump, a branch of the return to a reactor, a second pump, and that one beside the sump, by the
add menus of the parts."""
from session import Saved, evaluate, near, same, true


def add(user, part, line):
    user.choose("combo box", "Part", part)
    user.choose("button", "Add a part", line)


def session(user):
    desk = user.desk
    desk.start()
    user.think("a second tank")
    add(user, "Overview", "Second tank from a tee in the return")
    user.find("list item", "Display tank 2")
    user.think("a branch to a reactor")
    add(user, "Return run 1", "Branch to a reactor in the sump")
    user.reads("list item", "Reactor.*", "flow [1-9]")
    user.think("a second pump")
    add(user, "Pump A, 40 W, variable speed", "Second pump with its own outlet")
    second = user.find("list item", r"Pump A, 40 W, variable speed \(2\)").name
    user.think("and that beside the sump")
    add(user, r"Pump A, 40 W, variable speed \(2\)", "Place beside the sump, with a valve")
    user.find("list item", "(Ball valve.*|Bulkhead) of Return run 8")
    user.find("label", "Not sound.*Transfer test failed.*")
    user.think("slower, until the display holds what it lifts")
    user.click("text", "Speed")
    user.type("75\n")
    user.find("label", "Sound: no stop finding.*Return.*")
    for tank in ("Display tank 1", "Display tank 2"):
        user.reads("list item", tank, "turnover [1-9][0-9.]* times an hour")

    user.think("save")
    path = desk.home / "several.downcomer"
    user.click("button", "Save")
    user.find("text", "Name:")
    user.type("several\n")
    saved = Saved(desk.wait(lambda: path.exists() and path, "the saved file"))
    same(len(saved.parts("tank")), 2, "tanks")
    same(len(saved.parts("sump")), 1, "sumps")
    same(saved.values("pump", "placing"), [None, "outside"], "places of the pumps")
    same(saved.values("pump", "speed"), ["0.85", "0.75"], "speeds of the pumps")
    reactor = next(d["key"] for d in saved.parts("device") if d["kind"] == "reactor")
    true(reactor in saved.values("return", "to"), "no run leads to the reactor")
    status, figures = evaluate(desk.program, path)
    same(status, 0, "exit status of evaluate")
    shown = user.reads("label", "Sound.*Return.*", r"Return ([\d ]+) L/h").group(1).replace(" ", "")
    near(float(shown), figures["flow"]["return_m3_per_s"] * 3.6e6, 0.005, "the flow in the window")
