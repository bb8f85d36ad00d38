# SPDX-License-Identifier: LGPL-2.1-or-later
"""A desk to work at: a virtual display with a window manager, a session bus that starts accessibility and nothing else,
folders of its own, and the program. All of it ends with the Desk."""
import ctypes
import os
import pathlib
import re
import select
import shutil
import signal
import subprocess
import tempfile
import threading
import time

from tree import Tree
from x11 import Screen

WIDTH, HEIGHT = 1280, 800
PATIENCE = 20  # seconds until what is waited for counts as not happening, on a slow machine under sanitizers
SERVICE = pathlib.Path("/usr/share/dbus-1/services/org.a11y.Bus.service")
BAD_LINE = re.compile(r"-(WARNING|CRITICAL|ERROR) \*\*|ERROR: \w+Sanitizer|runtime error:")
BUS = """<busconfig><type>session</type><listen>unix:tmpdir={0}/run</listen><auth>EXTERNAL</auth>
<servicedir>{0}/services</servicedir><policy context="default"><allow send_destination="*" eavesdrop="true"/>
<allow eavesdrop="true"/><allow own="*"/></policy></busconfig>"""
MANAGER = """<openbox_config xmlns="http://openbox.org/3.4/rc"><focus><focusNew>yes</focusNew></focus>
<placement><policy>Smart</policy><center>yes</center></placement><theme><animateIconify>no</animateIconify></theme>
<desktops><number>1</number><popupTime>0</popupTime></desktops>
<mouse><context name="Client"><mousebind button="Left" action="Press"><action name="Focus"/><action name="Raise"/></mousebind>
</context></mouse></openbox_config>"""
SETTINGS = "[Settings]\ngtk-cursor-blink=false\ngtk-enable-animations=false\ngtk-theme-name=Default\n"
END_WITH_PARENT, ADOPT_ORPHANS = 1, 36  # prctl


class Failure(Exception):
    """What was expected and what is there."""


def missing():
    """What a Desk needs and this machine lacks; empty where all is there."""
    lacking = [name for name in ("Xvfb", "dbus-daemon", "openbox") if not shutil.which(name)]
    for library in ("libX11.so.6", "libXtst.so.6"):
        try:
            ctypes.CDLL(library)
        except OSError:
            lacking.append(library)
    return lacking + ([] if SERVICE.exists() else ["at-spi2-core"])


def prctl(*numbers):
    ctypes.CDLL(None).prctl(*numbers, 0, 0, 0)


def below(pid):
    """Process numbers of all descendants, the deepest first."""
    found = []
    try:
        for children in pathlib.Path(f"/proc/{pid}/task").glob("*/children"):
            for child in map(int, children.read_text().split()):
                found += below(child) + [child]
    except OSError:
        pass
    return found


class Desk:
    def __init__(self, program):
        self.program, self.process, self.screen, self.tree = program, None, None, None
        self.helpers, self.lines = [], []
        prctl(ADOPT_ORPHANS, 1)
        self.folder = pathlib.Path(tempfile.mkdtemp(prefix="downcomer-ui-"))
        try:
            self.set_up()
        except BaseException:
            self.close()
            raise

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.close()

    def environment(self):
        dropped = ("WAYLAND_DISPLAY", "XAUTHORITY", "AT_SPI_BUS_ADDRESS", "NO_AT_BRIDGE", "GTK_A11Y", "GTK_THEME", "GDK_SCALE",
                   "LANGUAGE", "XDG_CURRENT_DESKTOP", "G_DEBUG")
        env = {name: value for name, value in os.environ.items() if name not in dropped}
        env.update(GSETTINGS_BACKEND="memory", GSK_RENDERER="cairo", GDK_BACKEND="x11", GDK_DEBUG="gl-disable",
                   GTK_USE_PORTAL="0", GIO_USE_VFS="local", GIO_USE_VOLUME_MONITOR="unix", LC_ALL="C.UTF-8")
        for variable, name in (("HOME", "home"), ("XDG_CONFIG_HOME", "config"), ("XDG_DATA_HOME", "data"),
                               ("XDG_CACHE_HOME", "cache"), ("XDG_STATE_HOME", "state"), ("XDG_RUNTIME_DIR", "run")):
            (self.folder / name).mkdir(0o700)
            env[variable] = str(self.folder / name)
        return env

    def set_up(self):
        self.env = self.environment()
        self.home = self.folder / "home"
        (self.folder / "config/gtk-4.0").mkdir()
        (self.folder / "config/gtk-4.0/settings.ini").write_text(SETTINGS)
        (self.folder / "services").mkdir()
        service = [line for line in SERVICE.read_text().splitlines() if not line.startswith("SystemdService")]
        (self.folder / "services" / SERVICE.name).write_text("\n".join(service) + "\n")
        (self.folder / "bus.conf").write_text(BUS.format(self.folder))
        (self.folder / "manager.xml").write_text(MANAGER)
        self.env["DISPLAY"] = ":" + self.helper("Xvfb", "-displayfd", "{}", "-screen", "0", f"{WIDTH}x{HEIGHT}x24", "-nolisten",
                                                "tcp", "-noreset")
        self.env["DBUS_SESSION_BUS_ADDRESS"] = self.helper(
            "dbus-daemon", f"--config-file={self.folder}/bus.conf", "--nofork", "--nosyslog", "--print-address={}")
        self.screen = Screen(self.env["DISPLAY"])
        self.helper("openbox", "--sm-disable", "--config-file", f"{self.folder}/manager.xml")
        self.wait(lambda: self.screen.property(self.screen.root.value, "_NET_SUPPORTING_WM_CHECK"), "openbox to start")

    def helper(self, *words):
        """Starts a program; where a word has {}, this becomes the number of a pipe, from which one line is returned."""
        told = any("{}" in word for word in words)
        read, write = os.pipe() if told else (None, None)
        with open(self.folder / "helpers.log", "a", encoding="utf-8") as log:
            self.helpers.append(subprocess.Popen([word.format(write) for word in words], env=self.env, stdout=log, stderr=log,
                                                 stdin=subprocess.DEVNULL, pass_fds=[write] if told else [],
                                                 preexec_fn=lambda: prctl(END_WITH_PARENT, signal.SIGTERM)))
        if not told:
            return None
        os.close(write)
        line = b""
        while not line.endswith(b"\n"):
            data = os.read(read, 200) if select.select([read], [], [], PATIENCE)[0] else b""
            if not data:
                raise Failure(f"{words[0]} did not start: " + (self.folder / "helpers.log").read_text())
            line += data
        os.close(read)
        return line.decode().strip()

    # The program

    def start(self, *arguments):
        """Starts the program and waits for its first window, which then fills the screen."""
        self.process = subprocess.Popen([self.program, *map(str, arguments)], env=self.env, cwd=self.home,
                                        stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                                        preexec_fn=lambda: prctl(END_WITH_PARENT, signal.SIGTERM))
        self.reader = threading.Thread(target=self.listen, args=(self.process.stdout,), daemon=True)
        self.reader.start()
        self.tree = Tree(self.env["DBUS_SESSION_BUS_ADDRESS"], self.process.pid)
        self.wait(self.screen.windows, "a window")
        for window in self.screen.windows():
            self.screen.put(window, 0, 0, WIDTH, HEIGHT)
        self.wait(self.tree.read, "the accessible tree")

    def listen(self, stream):
        for line in stream:
            self.lines.append(line.decode("utf-8", "replace").rstrip())

    def wait(self, condition, what, patience=PATIENCE):
        """Until the condition holds; returns what it gave."""
        end = time.monotonic() + patience
        while True:
            found = condition()
            if found:
                return found
            if self.process is not None and self.process.poll() is not None:
                raise Failure(f"the program ended with {self.process.returncode} while waiting for {what}")
            if time.monotonic() > end:
                raise Failure(f"waited {patience} s for {what}")
            time.sleep(0.01)

    def used(self):
        """Processor time of the program in ns, and whether it wants more."""
        tasks, total = pathlib.Path(f"/proc/{self.process.pid}/task"), 0
        for task in tasks.glob("*/schedstat"):
            try:
                total += int(task.read_text().split()[0])
            except OSError:  # a thread that ended meanwhile
                pass
        return total, (tasks / str(self.process.pid) / "stat").read_text().rsplit(")", 1)[1].split()[0] == "R"

    def rest(self):
        """Until the program has answered all input and computes nothing more: for two looks it neither ran nor wanted to."""
        still, before, end = 0, -1, time.monotonic() + PATIENCE
        while still < 2 and time.monotonic() < end and self.process.poll() is None:
            now, wants = self.used()
            still = still + 1 if now - before < 200_000 and not wants else 0
            before = now
            time.sleep(0.006)

    def end(self, close=True):
        """Closes the windows as a user does (unless the program is ending already) and returns the exit status."""
        asked, end = set(), time.monotonic() + PATIENCE
        while self.process.poll() is None:
            for window in reversed(self.screen.windows()) if close else ():
                if window not in asked:
                    asked.add(window)
                    self.screen.ask_to_close(window)
            if time.monotonic() > end:
                raise Failure("the program does not end")
            time.sleep(0.01)
        return self.gone()

    def kill(self):
        """As a crash or the power does: it can do nothing more."""
        self.process.kill()
        self.process.wait()
        self.gone()

    def gone(self):
        status = self.process.returncode
        self.reader.join(5)
        self.process.stdout.close()
        self.tree.close()
        self.process = self.tree = None
        return status

    def complaints(self):
        """Warnings that the program wrote."""
        return [line for line in self.lines if BAD_LINE.search(line)]

    def close(self):
        if self.process is not None:
            self.process.kill()
            self.process.wait()
            self.gone()
        if self.screen is not None:
            self.screen.close()
        for helper in reversed(self.helpers):
            helper.terminate()
        for helper in self.helpers:
            helper.wait()
        for _ in range(200):  # what the bus started is ours now
            left = below(os.getpid())
            for pid in left:
                try:
                    os.kill(pid, signal.SIGTERM)
                    os.waitpid(pid, os.WNOHANG)
                except OSError:
                    pass
            if not left:
                break
            time.sleep(0.01)
        shutil.rmtree(self.folder, ignore_errors=True)
