#!/usr/bin/env python3
"""Reads a packaged extension as VS Code would: what its manifest names is there, and nothing else is.

    package.py PACKAGE.vsix FOLDER [PROGRAM]

With PROGRAM it is one for a single system, which holds that very program. One for a browser holds the module of pages.
"""

import json
import re
import sys
import zipfile
from pathlib import Path

# What the packaging itself adds.
OWN = {"[Content_Types].xml", "extension.vsixmanifest"}

# Named by no manifest, but read by people, or by the extension itself.
READ = {"extension/dist/preview.js", "extension/changelog.md", "extension/readme.md", "extension/LICENSE.txt", "extension/NOTICES", "extension/package.json"}

# The largest package that holds no more than it should, in bytes.
LARGEST = 400_000
# The checks pack the program that they built, with its symbols; what is given to people is held to less by `.ci/dist`.
LARGEST_PROGRAM = 10_000_000
# The module of pages, packed as a .vsix packs it.
LARGEST_MODULE = 1_100_000
# What it needs, named by no manifest.
MODULE = {"extension/dist/worker.js", "extension/dist/snell_bg.wasm"}


def strings(value):
    """Every string of a JSON value."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for part in value.values():
            yield from strings(part)
    elif isinstance(value, list):
        for part in value:
            yield from strings(part)


# Placeholders, until it is settled where the project is kept: `.github/RELEASING.md` says who fills them.
PLACES = ("repository", "bugs", "homepage")


def own_program(archive, program):
    """The files that a package for one system holds beside the extension's, and what is wrong with them."""
    name = f"extension/server/{Path(program).name}"
    if name not in archive.namelist():
        return set(), [f"{name} is not there"]
    faults = [] if archive.read(name) == Path(program).read_bytes() else [f"{name} is another program"]
    if not archive.getinfo(name).external_attr >> 16 & 0o100:
        faults.append(f"{name} cannot be run")
    return {name, "extension/server/NOTICES"}, faults


def main(package, folder, program=None):
    faults, server = [], set()
    with zipfile.ZipFile(package) as archive:
        names = set(archive.namelist())
        if program:
            server, faults = own_program(archive, program)
        manifest = json.loads(archive.read("extension/package.json"))
        for name in names:
            if name.endswith(".json"):
                json.loads(archive.read(name))
        words = {name: archive.read(name).decode() for name in names if name.endswith((".json", ".md", ".txt"))}
    in_browser = "browser" in manifest
    if in_browser:
        server |= MODULE
        if "main" in manifest:
            faults.append("it has an entry for a system, and no program")
    named = {"extension/" + text.removeprefix("./") for text in strings(manifest) if re.fullmatch(r"[\w./-]+\.\w+", text) and "/" in text}
    named |= {"extension/" + manifest["icon"]}
    faults += [f"{name} is named and not there" for name in sorted((named | READ | server) - names)]
    faults += [f"{name} is there and not named" for name in sorted(names - named - READ - OWN - server)]
    grammars = [grammar["path"] for grammar in manifest["contributes"]["grammars"]]
    for grammar in grammars:
        if words.get("extension/" + grammar.removeprefix("./")) != Path(folder, grammar).read_text(encoding="utf-8"):
            faults.append(f"{grammar} is not the one of the project")
    if not any("text.html.markdown" in grammar.get("injectTo", []) for grammar in manifest["contributes"]["grammars"]):
        faults.append("no colours for the fences of Markdown")
    languages = {snippets["language"] for snippets in manifest["contributes"]["snippets"]}
    if languages != {"rig", "markdown"}:
        faults.append(f"snippets for {sorted(languages)}")
    for name, text in words.items():
        faults += [f"{name} says {found}" for found in re.findall(r"TODO|FIXME|/tmp/\S*|/home/\S*|/root/\S*", text)]
    faults += [f"{place} is missing" for place in PLACES if place not in manifest]
    size = Path(package).stat().st_size
    if size > LARGEST + (LARGEST_PROGRAM if program else 0) + (LARGEST_MODULE if in_browser else 0):
        faults.append(f"{size} bytes")
    for fault in faults:
        print(f"the package: {fault}", file=sys.stderr)
    if not faults:
        print(f"holds: the package has what its manifest names, {len(names)} files in {size // 1000} kB")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
