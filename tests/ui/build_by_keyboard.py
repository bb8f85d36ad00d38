# SPDX-License-Identifier: LGPL-2.1-or-later
"""The same system of three pipes without a mouse."""
from build import SIZES, judge


def take_up(user, part, key="Tab"):
    """Goes along the parts of the drawing to one and chooses it."""
    user.tab_to(part, key)
    user.key("space")
    user.state("list item", part, "selected")


def add(user, thing):
    """From the values of a part by its add button to a line of the menu."""
    user.key("Return")
    user.tab_to("Add a part")
    user.key("space")
    user.tab_to(thing, "Down")
    user.key("Return")
    user.find("list item", thing)


def session(user):
    desk = user.desk
    desk.start()
    user.think("ask for a new design")
    user.key("ctrl+n")
    for name, number, *_ in SIZES:
        user.tab_to(name)
        user.type(number)
    user.reads(None, "Sump.*", "^Sump 600")
    user.think("take the proposal")
    user.key("Return")
    user.find("list item", "Pump D.*")
    user.gone("button", "Propose")

    user.think("take the trickle channel and the emergency drain out")
    for drain in ("Trickle channel", "Dry emergency"):
        take_up(user, drain)
        user.key("Delete")
        user.gone("list item", drain)
    user.find("label", "Sound: no stop finding, 2 cautions.*")

    user.think("make the sump too low, see the stop")
    take_up(user, "Sump")
    user.key("Return")
    user.tab_to("Outside height")
    user.type("200\n")
    user.find("label", "Not sound.*")
    user.think("and higher again")
    user.key("ctrl+z")
    user.find("label", "Sound: no stop finding, 2 cautions.*")

    user.think("make the sump longer, but no longer than the door is wide")
    user.tab_to("Sump", "F6")
    for number, verdict in (("640", "Not sound.*The sump does not pass the door.*"), ("610", "Sound: no stop.*Return.*")):
        user.type(number + "\n")
        user.find("label", verdict)

    user.think("hang a trickle channel and an emergency drain in the box")
    for drain in ("Trickle channel", "Dry emergency"):
        take_up(user, "Overflow", "shift+Tab")
        add(user, drain)
        user.tab_to("Overflow|Sump|Drawing|" + drain, "F6")
    user.think("put valve and union into the return")
    take_up(user, "Return run 1")
    user.key("v")
    user.find("list item", "Ball valve with unions of Return run 1")
    take_up(user, "Return run 1", "shift+Tab")
    user.key("u")
    user.find("label", "Sound: no stop finding.*")

    user.think("save")
    path = desk.home / "odd stand.downcomer"
    user.key("ctrl+s")
    user.find("text", "Name:")
    user.type("odd stand\n")
    desk.wait(path.exists, "the saved file")
    user.gone("text", "Name:")
    user.think("done")
    judge(user, path)
