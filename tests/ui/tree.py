# SPDX-License-Identifier: LGPL-2.1-or-later
"""The accessible tree of the program, as a screen reader has it. GTK hands names, states and words of all that it knows out
in one answer, so that a full window takes a twentieth of a second; places and texts are asked for one by one."""
import ast
import re

from gi.repository import Gio, GLib

SPACES = dict.fromkeys(map(ord, "\u202f\u00a0\u2009\u2003"), " ")
PREFIX = "org.a11y.atspi."
TYPES = re.compile(r"([\[(, ])(?:@\S+|u?int\d+|objectpath|byte) (?=[\['\d-])")
STATES = ("invalid active armed busy checked collapsed defunct editable enabled expandable expanded focusable focused "
          "has-tooltip horizontal iconified modal multi-line multiselectable opaque pressed resizable selectable selected "
          "sensitive showing single-line stale transient vertical visible").split()
FOCUSED = 1 << STATES.index("focused")
# AtspiRole, of which GTK 4 uses these.
ROLES = {2: "alert", 7: "check box", 11: "combo box", 16: "dialog", 23: "window", 27: "image", 29: "label", 31: "list",
         32: "list item", 33: "menu", 34: "menu bar", 35: "menu item", 37: "page tab", 39: "panel", 43: "button",
         44: "radio button", 48: "scroll bar", 50: "separator", 51: "slider", 52: "spin button", 61: "text",
         62: "toggle button", 69: "window", 75: "application", 79: "entry"}


class Node:
    def __init__(self, bus, item):
        self.bus = bus
        self.reference, _, _, _, _, interfaces, name, role, description, states = item
        self.parent = None
        self.interfaces = {i.removeprefix(PREFIX) for i in interfaces}
        self.name, self.description = name.translate(SPACES).strip(), description.translate(SPACES)
        self.role = ROLES.get(role, str(role))
        bits = states[0] | states[1] << 32
        self.states = {state for i, state in enumerate(STATES) if bits >> i & 1}

    def ask(self, interface, method, arguments=None):
        return self.bus.call_sync(self.reference[0], self.reference[1], PREFIX + interface, method, arguments, None, 0, 10000,
                                  None).unpack()

    @property
    def place(self):
        """(x, y, width, height) in its window; GTK takes the corner of a popover for that of its window."""
        if "Component" not in self.interfaces:
            return (0, 0, 0, 0)
        try:
            return self.ask("Component", "GetExtents", GLib.Variant("(u)", (1,)))[0]
        except GLib.Error:  # it went meanwhile
            return (0, 0, 0, 0)

    @property
    def text(self):
        """What an entry or label reads."""
        if "Text" not in self.interfaces:
            return ""
        try:
            count = self.bus.call_sync(*self.reference, "org.freedesktop.DBus.Properties", "Get",
                                       GLib.Variant("(ss)", (PREFIX + "Text", "CharacterCount")), None, 0, 10000, None).unpack()[0]
            return self.ask("Text", "GetText", GLib.Variant("(ii)", (0, count)))[0].translate(SPACES)
        except GLib.Error:
            return ""

    @property
    def line_up(self):
        """Itself and what it lies in, up to its popover or window, which is the last."""
        node, inside = self, False
        while node is not None and node.role != "application":
            yield node
            if inside:
                return
            inside = node.name == "GtkPopoverContent"
            node = node.parent

    @property
    def over(self):
        """Whether it is in a popover."""
        return any(node.name == "GtkPopoverContent" for node in self.line_up)

    @property
    def bounds(self):
        """Its place and those that it lies in; none where one of them is hidden. GTK 4.8 knows the state "showing" of windows
        alone; a popover that is closed and a page of a stack that is behind have no size."""
        found = []
        for node in self.line_up:
            if "visible" not in node.states:
                return []
            if node is self or not (node.role == "panel" and node.name):  # the page itself is no widget
                found.append(node.place)
        return found if all(width > 0 and height > 0 for _, _, width, height in found) else []

    @property
    def seen(self):
        """The part of its place that is on the screen, None where nothing is."""
        bounds = self.bounds
        if not bounds:
            return None
        x, y = max(b[0] for b in bounds), max(b[1] for b in bounds)
        x1, y1 = min(b[0] + b[2] for b in bounds), min(b[1] + b[3] for b in bounds)
        return (x, y, x1 - x, y1 - y) if x1 > x and y1 > y else None

    def __repr__(self):
        return f'{self.role} "{self.name}"' + (f" ({self.description})" if self.description else "")


class Tree:
    """The tree of the program whose process is `pid`, on the accessibility bus of a session bus at `address`."""

    def __init__(self, address, pid):
        flags = Gio.DBusConnectionFlags.AUTHENTICATION_CLIENT | Gio.DBusConnectionFlags.MESSAGE_BUS_CONNECTION
        self.pid, self.name = pid, None
        session = Gio.DBusConnection.new_for_address_sync(address, flags, None, None)
        where = session.call_sync("org.a11y.Bus", "/org/a11y/bus", "org.a11y.Bus", "GetAddress", None, None, 0, 10000,
                                  None).unpack()[0]
        self.bus = Gio.DBusConnection.new_for_address_sync(where, flags, None, None)
        for connection in (session, self.bus):
            connection.set_exit_on_close(False)
        self.session = session

    def application(self):
        """The name on the bus of the program, or None while it has none."""
        bus = self.bus
        children = bus.call_sync("org.a11y.atspi.Registry", "/org/a11y/atspi/accessible/root", PREFIX + "Accessible",
                                 "GetChildren", None, None, 0, 10000, None).unpack()[0]
        for name, _ in children:
            try:
                pid = bus.call_sync("org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus",
                                    "GetConnectionUnixProcessID", GLib.Variant("(s)", (name,)), None, 0, 10000, None).unpack()[0]
            except GLib.Error:
                continue
            if pid == self.pid:
                return name
        return None

    def ask_items(self):
        return self.bus.call_sync(self.name, "/org/a11y/atspi/cache", PREFIX + "Cache", "GetItems", None, None, 0, 20000, None)

    def focused(self):
        """The name of what has the keyboard: the same without reading the rest."""
        items = self.ask_items().get_child_value(0)
        for item in map(items.get_child_value, range(items.n_children())):
            if item.get_child_value(9).get_child_value(0).get_uint32() & FOCUSED:
                return item.get_child_value(6).get_string().translate(SPACES).strip()
        return ""

    def items(self):
        """What GTK has told of all that anybody asked for once, by reference."""
        text = TYPES.sub(r"\1", self.ask_items().print_(False))  # five times as fast as to unpack it piece by piece
        return {item[0]: item for item in ast.literal_eval(text)[0]}

    def children(self, references):
        """Those of each, all asked at once."""
        answers, context = {}, GLib.MainContext.default()

        def answered(bus, result, reference):
            try:
                answers[reference] = bus.call_finish(result).unpack()[0]
            except GLib.Error:  # it went meanwhile
                answers[reference] = []
        for reference in references:
            self.bus.call(*reference, PREFIX + "Accessible", "GetChildren", None, None, 0, 20000, None, answered, reference)
        while len(answers) < len(references):
            context.iteration(True)
        return answers

    def walk(self, items):
        """References of all that is in the tree now with that of their parents, parents first. It leaves out what is hidden,
        which the items may still hold."""
        level, found = [(self.name, "/org/a11y/atspi/accessible/root")], {}
        found[level[0]] = None
        while level:
            answers = self.children([r for r in level if r not in items or items[r][4] > 0 or found[r] is None])
            level = []
            for parent, children in answers.items():
                for child in children:
                    if not child[1].endswith("/null") and child not in found:
                        found[child] = parent
                        level.append(child)
        return found

    def read(self):
        """All nodes of now; none while the program is not on the bus, or where the tree changed while it was read."""
        self.name = self.name or self.application()
        if self.name is None:
            return []
        try:
            items = self.items()
            found = self.walk(items)
            if any(reference not in items for reference in found):
                items = self.items()
            nodes = {reference: Node(self.bus, items[reference]) for reference in found}
        except (GLib.Error, KeyError):
            return []
        for reference, parent in found.items():
            nodes[reference].parent = nodes.get(parent)
        return list(nodes.values())

    def close(self):
        for connection in (self.bus, self.session):
            connection.close_sync(None)
