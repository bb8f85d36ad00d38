# SPDX-License-Identifier: LGPL-2.1-or-later
"""A system of three pipes from nothing with the mouse; the keyboard only gives numbers and the file's name."""
from build import SIZES, judge
from desk import Failure


def on_run(user, part, share, line):
    """A line of the context menu on a run, at a share of its height from its top."""
    x, y, width, height = user.box(user.find("list item", part))
    user.menu(x + width / 2, y + height * share, line)


def session(user):
    desk = user.desk
    desk.start()
    user.think("ask for a new design")
    user.click("button", "New design")
    for name, number, *_ in SIZES:
        if user.focus_name() != name:
            user.click("text", name)
        user.type(number)
    user.reads(None, "Sump.*", "^Sump 600")
    user.think("take the proposal")
    user.click("button", "Propose")
    user.find("list item", "Pump D.*")

    user.think("take the trickle channel and the emergency drain out")
    on_run(user, "Dry emergency", 0.8, "Remove")
    user.gone("list item", "Dry emergency")
    on_run(user, "Trickle channel", 0.9, "Remove")
    user.gone("list item", "Trickle channel")
    user.find("label", "Sound: no stop finding, 2 cautions.*")

    user.think("make the sump too low, see the stop")
    user.choose("combo box", "Part", "Sump")
    x, y, width, height = user.box(user.find("list item", "Sump"))
    user.drag((x + width / 2, y), (0, 60), typed="200\n")
    user.let_go()
    user.find("label", "Not sound.*|.*[1-9] stop.*")
    user.think("and higher again")
    user.click("button", "Undo")
    user.find("label", "Sound: no stop finding, 2 cautions.*")

    user.think("make the sump longer, but no longer than the door is wide")
    for number, verdict in (("640", "Not sound.*The sump does not pass the door.*"), ("610", "Sound: no stop.*Return.*")):
        x, y, width, height = user.box(user.find("list item", "Sump"))
        user.drag((x + width, y + height / 2), (20, 0), typed=number + "\n")
        user.let_go()
        user.find("label", verdict)

    user.think("hang a trickle channel and an emergency drain in the box")
    for drain in ("Trickle channel", "Dry emergency"):
        user.choose("combo box", "Part", "Overflow")
        user.choose("button", "Add a part", drain)
        user.find("list item", drain)
    user.think("put valve and union into the return")
    on_run(user, "Return run 1", 0.75, "Add valve")
    user.find("list item", "Ball valve with unions of Return run 1")
    on_run(user, "Return run 1", 0.5, "Add union")
    user.find("label", "Sound: no stop finding.*")

    user.think("save")
    path = desk.home / "odd stand.downcomer"
    user.click("button", "Save")
    user.find("text", "Name:")
    user.type("odd stand\n")
    desk.wait(path.exists, "the saved file")
    user.gone("text", "Name:")
    user.think("done")
    judge(user, path)
