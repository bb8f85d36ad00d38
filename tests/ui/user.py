# SPDX-License-Identifier: LGPL-2.1-or-later
"""What a person does at a Desk: looks for things by their names, points, drags, types. Every act waits until the program
has answered the one before. With a pace, acts also take as long as a practised person takes for them."""
import re
import time

from desk import Failure
from x11 import BUTTON_LEFT, BUTTON_RIGHT, WHEEL_DOWN, WHEEL_UP

# The keystroke-level model: Card, Moran and Newell, Communications of the ACM 23 (1980) 396: a key 0.2 s (an average skilled
# typist), pointing 1.1 s, a button down or up 0.1 s, a hand between mouse and keys 0.4 s, making up one's mind 1.35 s.
KEY, POINT, BUTTON, HOME, MIND = 0.2, 1.1, 0.1, 0.4, 1.35
SLOP = 12  # pixels of motion that make a press a drag, with room to spare


class User:
    def __init__(self, desk, pace=0.0, say=None):
        self.desk, self.pace, self.say = desk, pace, say or (lambda line: None)
        self.hand, self.began, self.acts = None, time.monotonic(), None

    def spend(self, seconds, hand=None, act=None, times=1):
        """Time for an act, which is counted."""
        if self.acts and act:
            self.acts[act] += times
        if self.pace == 0:
            return
        if hand is not None and hand != self.hand:
            seconds += HOME if self.hand is not None else 0
            self.hand = hand
        time.sleep(seconds * self.pace)

    def think(self, what):
        """Begins a unit of work, which is told with the time."""
        if self.acts:
            self.say(f"          {self.acts['keys']} keys, {self.acts['clicks']} clicks, {self.acts['notches']} notches of the wheel")
        self.acts = {"keys": 0, "clicks": 0, "notches": 0}
        self.spend(MIND)
        self.say(f"{time.monotonic() - self.began:6.1f} s  {what}")

    # Looking

    def all(self, role, name):
        """Everything that is showing with this role (None: any) and name (a pattern of the whole name)."""
        return [node for node in self.desk.tree.read()
                if role in (None, node.role) and re.fullmatch(name, node.name) and node.seen]

    def find(self, role, name, hidden=False):
        """The first of them, as soon as there is one; with `hidden` also what is scrolled out of sight."""
        def look():
            return self.all(role, name) or hidden and [node for node in self.desk.tree.read() if role in (None, node.role) and
                                                       re.fullmatch(name, node.name) and node.bounds]
        try:
            return self.desk.wait(look, f"{role or 'anything'} named {name}")[0]
        except Failure as failure:
            alike = sorted({n.name for n in self.desk.tree.read() if role in (None, n.role) and n.seen} - {""})
            raise Failure(f"{failure}; there are: " + ", ".join(alike)) from None

    def reads(self, role, name, pattern):
        """Waits until a thing's words (text, then description) match a pattern, and returns the match."""
        seen = set()

        def look():
            for node in self.all(role, name):
                for words in (node.text, node.description, node.name):
                    match = re.search(pattern, words)
                    if match:
                        return match
                    seen.add(words)
            return None
        try:
            return self.desk.wait(look, f'"{pattern}" in {role} named {name}')
        except Failure as failure:
            raise Failure(f"{failure}; it read: {sorted(seen)}") from None

    def gone(self, role, name):
        self.desk.wait(lambda: not self.all(role, name), f"{role} named {name} to go")

    def focused(self, name, role=None):
        """Waits until what has the keyboard is named so."""
        now = []

        def look():
            now[:] = [node for node in self.desk.tree.read() if "focused" in node.states]
            return [n for n in now if re.fullmatch(name, n.name) and role in (None, n.role)]
        try:
            return self.desk.wait(look, f"the focus on {name}", 10)[0]
        except Failure as failure:
            raise Failure(f"{failure}; it is on {now}") from None

    def focus_name(self):
        return self.desk.tree.focused()

    def state(self, role, name, state):
        self.desk.wait(lambda: any(state in node.states for node in self.all(role, name)), f"{name} to be {state}")

    def box(self, node, place=None):
        """Where the seen part of a node lies on the screen: x, y, width, height. GTK tells the place within the window, and
        in a popover as if that lay over its window's corner; X knows where they are."""
        screen, holder = self.desk.screen, [*node.line_up][-1]
        left, top, wide, high = holder.place
        if not node.over:
            windows = screen.windows()
            over = screen.place(next((w for w in windows if screen.title(w) == holder.name), windows[-1]))
        else:
            over = self.desk.wait(lambda: next((p for p in screen.popovers() if p and abs(p[2] - wide) < SLOP and
                                                abs(p[3] - high) < SLOP), None), f"the popover of {node}")
        x, y, width, height = place or node.seen or node.place
        return (over[0] + (over[2] - wide) / 2 + x - left, over[1] + (over[3] - high) / 2 + y - top, width, height)

    def middle(self, node):
        x, y, width, height = self.box(node)
        return x + width / 2, y + height / 2

    def reveal(self, role, name):
        """Turns the wheel over what scrolls until all of the thing is to be seen, and returns it."""
        for _ in range(100):
            node = self.find(role, name, hidden=True)
            seen = node.seen
            if seen and seen[2:] == node.place[2:]:
                return node
            x, y, width, height = node.place
            outer = next((b for b in node.bounds if not (b[1] <= y and y + height <= b[1] + b[3])), None)
            if outer is None:
                break
            below = y + height - outer[1] - outer[3]
            self.roll(self.box(node, outer), below if below > 0 else y - outer[1])
        raise Failure(f"{name} cannot be brought into view")

    # The pointer

    def press_at(self, x, y, button=BUTTON_LEFT, times=1):
        self.spend(POINT + 2 * BUTTON * times, "mouse", "clicks")
        self.desk.screen.move(x - 1, y)
        self.desk.screen.move(x, y)
        for _ in range(times):
            self.desk.screen.button(button, True)
            self.desk.screen.button(button, False)
        self.desk.rest()

    def click(self, role, name, button=BUTTON_LEFT):
        node = self.reveal(role, name)
        if "sensitive" not in node.states:
            raise Failure(f"{node} cannot be used")
        self.press_at(*self.middle(node), button)
        return node

    def pick(self, name):
        """A line of the open menu or list, which is rolled until it is to be seen."""
        def look():
            return [node for node in self.desk.tree.read() if re.fullmatch(name, node.name) and node.over and
                    [*node.line_up][-1].place[2] > 0]
        node = self.desk.wait(look, f"{name} in a menu")[-1]
        for _ in range(60):
            if node.seen:
                return self.press_at(*self.middle(node))
            popover = [*node.line_up][-1]
            box = self.box(node, popover.place)
            self.roll(box, box[3] / 2)
            node = look()[-1]
        raise Failure(f"{name} does not come into view")

    def roll(self, box, distance):
        """Turns the wheel over a box of the screen until what is in it has moved by so many pixels."""
        step = box[3] ** (2 / 3)  # GtkScrolledWindow's for one notch
        self.desk.screen.move(box[0] + box[2] / 2, box[1] + box[3] / 2)
        for _ in range(max(1, int(abs(distance) / step))):
            self.spend(KEY, "mouse", "notches")
            self.desk.screen.button(WHEEL_DOWN if distance > 0 else WHEEL_UP, True)
            self.desk.screen.button(WHEEL_DOWN if distance > 0 else WHEEL_UP, False)
        self.desk.rest()

    def choose(self, role, name, line):
        """Opens a menu or list and takes a line of it."""
        self.click(role, name)
        self.pick(line)

    def menu(self, x, y, line):
        """A line of the context menu at a place."""
        self.press_at(x, y, BUTTON_RIGHT)
        self.pick(line)

    def drag(self, start, by, typed=None):
        """Takes what is at a place and moves it by (dx, dy). `typed` is a number entered while the button is down."""
        screen, (x, y), (dx, dy) = self.desk.screen, start, by
        self.spend(POINT + BUTTON, "mouse", "clicks")
        screen.move(x, y)
        self.desk.rest()
        screen.button(BUTTON_LEFT, True)
        self.spend(POINT)
        far = max(abs(dx), abs(dy))
        for share in (SLOP / far, 0.5, 0.8, 1) if far > SLOP else (1,):
            screen.move(x + dx * share, y + dy * share)
            self.desk.rest()
        if typed is not None:
            self.type(typed)
        else:
            screen.button(BUTTON_LEFT, False)
            self.spend(BUTTON)
            self.desk.rest()

    def let_go(self):
        self.desk.screen.button(BUTTON_LEFT, False)
        self.desk.rest()

    # The keyboard

    def key(self, *combinations):
        for combination in combinations:
            self.spend(KEY * (1 + combination.count("+")), "keys", "keys")
            self.desk.screen.press(combination)
            self.desk.rest()

    def type(self, text):
        self.spend(KEY * len(text), "keys", "keys", len(text))
        self.desk.screen.type(text)
        self.desk.rest()

    def tab_to(self, name, key="Tab", most=80):
        """Goes by a key until what is named so has the keyboard; returns how many it took."""
        for steps in range(most):
            if re.fullmatch(name, self.focus_name()):
                return steps
            self.key(key)
        raise Failure(f"{name} is not reached by {most} times {key}")
