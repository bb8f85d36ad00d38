# SPDX-License-Identifier: LGPL-2.1-or-later
"""The program is killed while somebody works at a file: started anew it has the work, and the file is as it was saved."""
import shutil

from session import Saved, same, true


def session(user):
    desk = user.desk
    path = desk.home / "sound.downcomer"
    shutil.copy(desk.source / "resources/demo/sound.downcomer", path)
    copies = desk.folder / "state/downcomer/recovery"
    desk.start(path)
    user.think("work")
    user.click("list item", "Pump A.*")
    user.click("text", "Speed")
    user.type("81\n")
    user.key("ctrl+1")
    user.choose("combo box", "Part", "Stand")
    user.click("text", "Inside height")
    user.type("777\n")
    line = user.find("label", "(Sound|Not sound).*Return.*").name
    user.think("wait for the copy, then the power goes")
    copy = desk.wait(lambda: next((c for c in copies.glob("*.downcomer") if b"0.777" in c.read_bytes()), None), "the copy")
    desk.kill()
    same(Saved(path).bytes, (desk.source / "resources/demo/sound.downcomer").read_bytes(), "the file after the crash")

    user.think("start anew")
    desk.start()
    user.find("alert", f"This is unsaved work on {path} that was recovered.*")
    same(user.find("label", "(Sound|Not sound).*Return.*").name, line, "what is said of the recovered work")
    true(not copy.exists(), "the old copy is still there")
    user.think("save it under a name")
    user.click("button", "Save")
    user.find("text", "Name:")
    user.type("recovered\n")
    saved = Saved(desk.wait(lambda: next(desk.home.glob("recovered*"), None), "the saved file"))
    same(saved.values("pump", "speed"), ["0.81"], "speed of the pump")
    same(saved.values("stand", "height"), ["0.777"], "height of the stand")
    user.gone("text", "Name:")
    same(desk.end(), 0, "exit status")
    same(list(copies.glob("*")), [], "copies after the work was saved")
