# SPDX-License-Identifier: LGPL-2.1-or-later
"""The crest, a baffle and a water line are dragged, with numbers typed while the button is down; all of it is undone back to
the same file and done again."""
import shutil

from session import Saved, near, same, true

GRIP = 5  # pixels by which the place of a part is wider than its drawing


class Sheet:
    """Where heights of the design lie on the screen, from the place of the sump and what the file has of it."""

    def __init__(self, user, saved):
        x, y, width, height = user.box(user.find("list item", "Sump"))
        self.floor = y + height - GRIP
        self.scale = (height - 2 * GRIP) / float(saved.values("sump", "height")[0])


def middle_of(user, part):
    x, y, width, height = user.box(user.find("list item", part))
    return x + width / 2, y + height / 2, y + height - GRIP


def pull(user, start, by, number):
    user.drag(start, by, typed=f"{number}\n")
    user.let_go()


def session(user):
    desk = user.desk
    path = desk.home / "sound.downcomer"
    shutil.copy(desk.source / "resources/demo/sound.downcomer", path)
    before = Saved(path)
    desk.start(path)
    line = user.find("label", "Sound: no stop finding.*").name
    sheet = Sheet(user, before)

    user.think("raise the crest")
    user.choose("combo box", "Part", "Overflow")
    x, _, _ = middle_of(user, "Overflow")
    _, _, tank_floor = middle_of(user, "Display tank")
    crest = float(before.values("overflow", "crest")[0])
    pull(user, (x, tank_floor - crest * sheet.scale), (0, -20), 560)
    user.reads("list item", "Overflow", "freeboard of the display 2[0-9] millimetres")

    user.think("move a baffle")
    user.choose("combo box", "Part", "Baffle 1")
    x, y, _ = middle_of(user, "Baffle 1")
    pull(user, (x, y), (30, 0), 333)
    user.think("lower the water of the return chamber")
    user.choose("combo box", "Part", "Chamber 5, Return")
    level = float(user.reads("list item", "Chamber 5, Return", r"Running level ([\d.]+) ").group(1)) / 1000
    x, _, floor = middle_of(user, "Chamber 5, Return")
    pull(user, (x, floor - level * sheet.scale), (0, 20), 141)
    user.reads("list item", "Chamber 5, Return", "Running level 141 millimetres")

    user.key("ctrl+s")
    changed = desk.wait(lambda: (now := Saved(path)).bytes != before.bytes and now, "the saved file")
    near(float(changed.values("overflow", "crest")[0]), 0.56, 1e-12, "crest")
    true("0.333" in changed.values("baffle", "x"), "place of the baffle: %s" % changed.values("baffle", "x"))
    same(changed.values("chamber", "running-level")[-1], "0.141", "level of the return chamber")

    user.think("undo all of it")
    user.key("ctrl+z", "ctrl+z", "ctrl+z")
    same(user.find("label", "Sound: no stop finding.*").name, line, "the summary after undoing")
    user.key("ctrl+s")
    desk.wait(lambda: Saved(path).bytes == before.bytes, "the same file as at the beginning")
    user.think("do it again")
    user.key("ctrl+shift+z", "ctrl+shift+z", "ctrl+shift+z")
    user.key("ctrl+s")
    desk.wait(lambda: Saved(path).bytes == changed.bytes, "the same file as before undoing")
