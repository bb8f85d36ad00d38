# SPDX-License-Identifier: LGPL-2.1-or-later
"""A small X client: where windows are, keys and buttons as from a keyboard and a mouse, and a picture for a failure."""
import ctypes
import struct
import zlib

BUTTON_LEFT, BUTTON_RIGHT, WHEEL_UP, WHEEL_DOWN = 1, 3, 4, 5
MODIFIERS = {"ctrl": "Control_L", "shift": "Shift_L", "alt": "Alt_L"}
CHARACTERS = {" ": "space", "\n": "Return", "-": "minus", ".": "period", ",": "comma", "/": "slash", "_": "underscore",
              "+": "plus", "%": "percent", "(": "parenleft", ")": "parenright", "'": "apostrophe", '"': "quotedbl",
              "?": "question", ":": "colon", "=": "equal"}
CLIENT_MESSAGE, ZPIXMAP, IS_VIEWABLE, ALL_PLANES = 33, 2, 2, 0xFFFFFFFF


class Attributes(ctypes.Structure):
    _fields_ = [("place", ctypes.c_int * 6), ("visual", ctypes.c_void_p), ("root", ctypes.c_ulong),
                ("kinds", ctypes.c_int * 4), ("planes", ctypes.c_ulong * 2), ("save_under", ctypes.c_int),
                ("colormap", ctypes.c_ulong), ("map_installed", ctypes.c_int), ("map_state", ctypes.c_int),
                ("masks", ctypes.c_long * 3), ("override_redirect", ctypes.c_int), ("screen", ctypes.c_void_p)]


class Image(ctypes.Structure):
    _fields_ = [("width", ctypes.c_int), ("height", ctypes.c_int), ("xoffset", ctypes.c_int), ("format", ctypes.c_int),
                ("data", ctypes.c_void_p), ("orders", ctypes.c_int * 5), ("bytes_per_line", ctypes.c_int)]


class Screen:
    """The display `name`. Places are in pixels of the screen."""

    def __init__(self, name):
        self.x, self.test = ctypes.CDLL("libX11.so.6"), ctypes.CDLL("libXtst.so.6")
        for function in ("XOpenDisplay", "XGetImage"):
            getattr(self.x, function).restype = ctypes.c_void_p
        for function in ("XDefaultRootWindow", "XInternAtom", "XStringToKeysym", "XkbKeycodeToKeysym"):
            getattr(self.x, function).restype = ctypes.c_ulong
        self.handler = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.c_void_p, ctypes.c_void_p)(lambda *_: 0)
        self.x.XSetErrorHandler(self.handler)  # windows may go while they are looked at
        self.display = ctypes.c_void_p(self.x.XOpenDisplay(name.encode()))
        if not self.display:
            raise OSError(f"cannot open display {name}")
        self.root = ctypes.c_ulong(self.x.XDefaultRootWindow(self.display))

    def close(self):
        self.x.XCloseDisplay(self.display)

    # Windows

    def atom(self, name):
        return self.x.XInternAtom(self.display, name.encode(), 0)

    def property(self, window, name):
        """The 32 bit items of a property as a tuple, or its bytes where it has bytes; () where there is none."""
        kind, width, n, left = ctypes.c_ulong(), ctypes.c_int(), ctypes.c_ulong(), ctypes.c_ulong()
        data = ctypes.c_void_p()
        self.x.XGetWindowProperty(self.display, ctypes.c_ulong(window), ctypes.c_ulong(self.atom(name)), ctypes.c_long(0),
                                  ctypes.c_long(65536), 0, ctypes.c_ulong(0), *map(ctypes.byref, (kind, width, n, left, data)))
        if not data.value:
            return ()
        size = ctypes.sizeof(ctypes.c_long) if width.value == 32 else 1
        raw = ctypes.string_at(data.value, n.value * size)
        self.x.XFree(data)
        return struct.unpack(f"{n.value}L", raw) if width.value == 32 else raw

    def attributes(self, window):
        found = Attributes()
        good = self.x.XGetWindowAttributes(self.display, ctypes.c_ulong(window), ctypes.byref(found))
        return found if good and found.map_state == IS_VIEWABLE else None

    def place(self, window):
        """(x, y, width, height), or None where it is gone."""
        found, x, y, child = self.attributes(window), ctypes.c_int(), ctypes.c_int(), ctypes.c_ulong()
        if not found:
            return None
        self.x.XTranslateCoordinates(self.display, ctypes.c_ulong(window), self.root, 0, 0, ctypes.byref(x), ctypes.byref(y),
                                     ctypes.byref(child))
        return x.value, y.value, found.place[2], found.place[3]

    def windows(self):
        """Those that the window manager places and that are on the screen, oldest first."""
        return [w for w in self.property(self.root.value, "_NET_CLIENT_LIST") if self.attributes(w)]

    def popovers(self):
        """Places of what lies over the windows: menus, lists, tooltips; the newest first."""
        root, parent, n = ctypes.c_ulong(), ctypes.c_ulong(), ctypes.c_uint()
        children = ctypes.POINTER(ctypes.c_ulong)()
        self.x.XQueryTree(self.display, self.root, *map(ctypes.byref, (root, parent, children, n)))
        found = [(w, self.attributes(w)) for w in reversed(children[:n.value])] if n.value else []
        if children:
            self.x.XFree(children)
        return [self.place(w) for w, attributes in found
                if attributes and attributes.override_redirect and attributes.place[2] > 1]

    def title(self, window):
        return bytes(self.property(window, "_NET_WM_NAME")).decode("utf-8", "replace")

    def put(self, window, x, y, width, height):
        self.x.XMoveResizeWindow(self.display, ctypes.c_ulong(window), x, y, width, height)
        self.x.XSync(self.display, 0)

    def ask_to_close(self, window):
        """As the button of the window manager does."""
        event = struct.pack("iLiPLLi4x5l", CLIENT_MESSAGE, 0, 1, 0, window, self.atom("WM_PROTOCOLS"), 32,
                            self.atom("WM_DELETE_WINDOW"), 0, 0, 0, 0).ljust(192, b"\0")
        self.x.XSendEvent(self.display, ctypes.c_ulong(window), 0, ctypes.c_long(0), ctypes.create_string_buffer(event, 192))
        self.x.XSync(self.display, 0)

    # Input

    def move(self, x, y):
        self.test.XTestFakeMotionEvent(self.display, -1, round(x), round(y), ctypes.c_ulong(0))
        self.x.XSync(self.display, 0)

    def button(self, number, down):
        self.test.XTestFakeButtonEvent(self.display, number, int(down), ctypes.c_ulong(0))
        self.x.XSync(self.display, 0)

    def code(self, name):
        symbol = self.x.XStringToKeysym(name.encode())
        code = self.x.XKeysymToKeycode(self.display, ctypes.c_ulong(symbol)) & 0xFF
        if not symbol or not code:
            raise ValueError(f"no key {name}")
        return code, self.x.XkbKeycodeToKeysym(self.display, code, 0, 0) != symbol

    def key(self, name, down):
        self.test.XTestFakeKeyEvent(self.display, self.code(name)[0], int(down), ctypes.c_ulong(0))
        self.x.XSync(self.display, 0)

    def press(self, combination):
        """Presses and lets go a key with its modifiers: "ctrl+shift+s", "Tab", "a"."""
        *held, name = combination.split("+")
        held = [MODIFIERS[h] for h in held]
        if not held and self.code(name)[1]:
            held = [MODIFIERS["shift"]]
        for key in held:
            self.key(key, True)
        self.key(name, True)
        self.key(name, False)
        for key in reversed(held):
            self.key(key, False)

    def type(self, text):
        for character in text:
            self.press(CHARACTERS.get(character, character))

    # Output

    def picture(self, path):
        """Writes the whole screen as PNG."""
        x, y, width, height = self.place(self.root.value)
        pointer = self.x.XGetImage(self.display, self.root, x, y, width, height, ctypes.c_ulong(ALL_PLANES), ZPIXMAP)
        image = Image.from_address(pointer)
        data = ctypes.string_at(image.data, image.bytes_per_line * height)
        rgb = bytearray(width * height * 3)
        rgb[0::3], rgb[1::3], rgb[2::3] = data[2::4], data[1::4], data[0::4]
        rows = b"".join(b"\0" + rgb[i * width * 3:(i + 1) * width * 3] for i in range(height))

        def chunk(kind, content):
            return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))
        with open(path, "wb") as file:
            file.write(b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)) +
                       chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b""))
