#!/usr/bin/env python3
"""Checks what the desktop reads, installed for real in a folder of its own: check-desktop.py ROOT BUILD ID.

Cases in TAP: launcher, software centre entry and settings pass the desktop's own validators (a validator that is not
installed is skipped), the suffix leads to our document type, the names agree everywhere.
"""
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ET

MIME = "application/vnd.downcomer+xml"
SVG = "{http://www.w3.org/2000/svg}"


def validator(*command):
    if not shutil.which(command[0]):
        return f"SKIP {command[0]} is not installed"
    done = subprocess.run(command, capture_output=True, text=True)
    return "" if done.returncode == 0 else done.stdout + done.stderr


def content_type(root, name, text):
    """What GIO says of a file, with our type installed in a data folder of its own."""
    with tempfile.TemporaryDirectory() as folder:
        packages = pathlib.Path(folder, "mime", "packages")
        packages.mkdir(parents=True)
        shutil.copy(root / "resources" / "downcomer.mime.xml", packages)
        subprocess.run(["update-mime-database", str(packages.parent)], check=True, capture_output=True)
        path = pathlib.Path(folder, name)
        path.write_text(text, encoding="utf-8")
        env = dict(os.environ, XDG_DATA_HOME=folder, GIO_USE_VFS="local", LC_ALL="C.UTF-8")
        done = subprocess.run(["gio", "info", "-a", "standard::content-type", str(path)], env=env,
                              capture_output=True, text=True, check=True)
        return re.search(r"standard::content-type: (\S+)", done.stdout).group(1)


def mime_case(root, name, text):
    if not shutil.which("update-mime-database"):
        return "SKIP update-mime-database is not installed"
    found = content_type(root, name, text)
    return "" if found == MIME else f"GIO calls it {found}"


def languages(root, build, app_id):
    """Each language of po/LINGUAS reaches launcher and software centre entry."""
    desktop = (build / "resources" / f"{app_id}.desktop").read_text(encoding="utf-8")
    metainfo = (build / "resources" / f"{app_id}.metainfo.xml").read_text(encoding="utf-8")
    codes = [line.strip() for line in (root / "po" / "LINGUAS").read_text(encoding="utf-8").splitlines()
             if line.strip() and not line.startswith("#")]
    absent = [code for code in codes if f"Comment[{code}]" not in desktop or f'xml:lang="{code}"' not in metainfo]
    return "" if codes and not absent else f"not translated into {absent or 'anything'}"


def names_agree(root, app_id):
    resources = root / "resources"
    desktop = (resources / f"{app_id}.desktop.in").read_text(encoding="utf-8")
    metainfo = ET.parse(resources / f"{app_id}.metainfo.xml.in").getroot()
    flatpak = json.loads((root / "flatpak" / f"{app_id}.json").read_text(encoding="utf-8"))
    schema = ET.parse(resources / f"{app_id}.gschema.xml").find("schema")
    says = {
        "desktop Icon": re.search(r"^Icon=(.*)$", desktop, re.M).group(1) == app_id,
        "desktop MimeType": f"MimeType={MIME};" in desktop,
        "desktop Exec": re.search(r"^Exec=downcomer %U$", desktop, re.M) is not None,
        "metainfo id": metainfo.findtext("id") == app_id,
        "metainfo launchable": metainfo.findtext("launchable") == f"{app_id}.desktop",
        "metainfo mediatype": metainfo.findtext("provides/mediatype") == MIME,
        "flatpak id": flatpak["app-id"] == app_id,
        "flatpak command": flatpak["command"] == "downcomer",
        "schema id": schema.get("id") == app_id,
        "schema path": schema.get("path") == "/" + app_id.replace(".", "/") + "/",
    }
    return ", ".join(name for name, right in says.items() if not right)


def versions_agree(root, app_id):
    version = re.search(r"version: '([^']+)'", (root / "meson.build").read_text(encoding="utf-8")).group(1)
    release = ET.parse(root / "resources" / f"{app_id}.metainfo.xml.in").find("releases/release").get("version")
    news = re.search(r"^## (\S+)", (root / "NEWS").read_text(encoding="utf-8"), re.M).group(1)
    return "" if version == release == news else f"meson.build {version}, metainfo {release}, NEWS {news}"


def symbolic_icons(root):
    """GTK recolours fills only: a stroke in a symbolic icon would keep its colour on a dark ground."""
    for path in sorted((root / "resources" / "icons" / "symbolic").glob("*.svg")):
        tree = ET.parse(path).getroot()
        if (tree.get("width"), tree.get("height")) != ("16", "16") or not path.stem.endswith("-symbolic"):
            return f"{path.name}: 16 by 16, named -symbolic"
        if any(element.get("stroke") for element in tree.iter()) or not list(tree.iter(SVG + "path")):
            return f"{path.name}: filled paths only"
    return ""


def main(root, build, app_id):
    resources = build / "resources"
    document = '<?xml version="1.0"?>\n<project xmlns="urn:downcomer:1"/>\n'
    cases = {
        "launcher is valid": lambda: validator("desktop-file-validate", str(resources / f"{app_id}.desktop")),
        "software centre entry is valid":
            lambda: validator("appstreamcli", "validate", "--no-net", "--explain",
                              str(resources / f"{app_id}.metainfo.xml")),
        "settings schema is valid":
            lambda: validator("glib-compile-schemas", "--strict", "--dry-run", str(root / "resources")),
        "suffix leads to the document type": lambda: mime_case(root, "a.downcomer", document),
        "languages reach the desktop": lambda: languages(root, build, app_id),
        "names agree": lambda: names_agree(root, app_id),
        "versions agree": lambda: versions_agree(root, app_id),
        "symbolic icons can be recoloured": lambda: symbolic_icons(root),
    }
    print(f"1..{len(cases)}")
    failed = False
    for number, (name, case) in enumerate(cases.items(), 1):
        fault = case()
        if fault.startswith("SKIP "):
            print(f"ok {number} {name} # {fault}")
        elif fault:
            print(f"not ok {number} {name}\n# " + fault.strip().replace("\n", "\n# "))
            failed = True
        else:
            print(f"ok {number} {name}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2]), sys.argv[3]))
