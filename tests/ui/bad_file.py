# SPDX-License-Identifier: LGPL-2.1-or-later
"""Files that are none are opened from the window: one sentence says what is wrong and where, and the work stays."""
import shutil

from session import Saved, same


def open_file(user, path):
    user.key("ctrl+o")
    user.find("button", "_Open Open")
    user.type(str(path) + "\n")
    user.gone("button", "_Open Open")


def session(user):
    desk = user.desk
    bad = {"half.downcomer": (desk.source / "resources/demo/sound.downcomer").read_text()[:2000],
           "number.downcomer": (desk.source / "resources/demo/sound.downcomer").read_text().replace(
               "<length>1.5</length>", "<length>NaN</length>"),
           "picture.downcomer": "\x89PNG no design at all"}
    said = {"half.downcomer": "line [0-9]+: the file breaks off or is damaged here", "number.downcomer": "line [0-9]+.*NaN",
            "picture.downcomer": "line 1: .*not a Downcomer document"}
    for name, text in bad.items():
        (desk.home / name).write_text(text)
    path = desk.home / "sound.downcomer"
    shutil.copy(desk.source / "resources/demo/sound.downcomer", path)
    desk.start(path)
    user.click("list item", "Pump A.*")
    user.click("text", "Speed")
    user.type("81\n")
    line = user.find("label", "(Sound|Not sound).*Return.*").name
    for name, words in said.items():
        user.think(f"open {name}")
        open_file(user, desk.home / name)
        user.find("alert", f"{desk.home / name}.*{words}.*")
        user.key("ctrl+w")
        user.gone("alert", f"{desk.home / name}.*")
        same(user.find("label", "(Sound|Not sound).*Return.*").name, line, "the work that was open")
        same((desk.home / name).read_text(), bad[name], name)
    user.think("save the work")
    user.key("ctrl+s")
    desk.wait(lambda: Saved(path).values("pump", "speed") == ["0.81"], "the saved work")
