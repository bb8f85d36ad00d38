# SPDX-License-Identifier: LGPL-2.1-or-later
"""A variant of a design is made and changed; the comparison says what differs and what that does, and switches by one click."""
import shutil
import subprocess

from session import Saved, same, true


def session(user):
    desk = user.desk
    path = desk.home / "sound.downcomer"
    shutil.copy(desk.source / "resources/demo/sound.downcomer", path)
    desk.start(path)
    planned = user.find("label", "Sound: no stop finding.*Return.*").name
    user.think("make a variant")
    user.choose("button", "Option shown: As planned", "New variant")
    user.find("button", "Option shown: As planned, variant 2")
    user.think("change it")
    user.click("list item", "Pump A.*")
    user.click("text", "Speed")
    user.type("80\n")
    user.reads("list item", "Pump A.*", "Flow 1[0-9]{3} litres")
    user.think("compare the two")
    user.choose("button", "Option shown: As planned, variant 2", "Compare options…")
    user.find("label", "Pump A, 40 W, variable speed: Speed")
    user.find("label", "1 value differs.*")
    for words in ("Flow returned to the display", "Drain margin", "Cost of a year", "90 %", "80 %"):
        user.find("label", words)
    user.think("switch back by one click")
    user.click("button", "Switch to As planned")
    user.find("button", "Option shown: As planned")
    user.key("Escape")
    user.gone("button", "Switch to As planned.*")
    same(user.find("label", "Sound: no stop finding.*Return.*").name, planned, "the summary of the first option")
    user.key("ctrl+s")
    saved = desk.wait(lambda: len((now := Saved(path)).options()) == 2 and now, "the saved file")
    same(saved.options(), ["As planned", "As planned, variant 2"], "options")
    same(saved.project.get("active"), "option-1", "the option in work")
    same([saved.parts("pump", option.get("key"))[0]["speed"] for option in saved.project if option.get("label")],
         ["0.9", "0.8"], "speeds of the pump")
    told = subprocess.run([desk.program, "differ", path], capture_output=True, text=True, check=False, timeout=60).stdout
    true("Speed: 90" in told and "1 value differs" in told, told)
