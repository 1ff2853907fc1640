#!/usr/bin/env python3
"""The program for Windows, tried as people use it there: by paths with backslashes and drives, and by an editor.

    python3 tests/tools/windows.py target/x86_64-pc-windows-gnu/dist/snell.exe

On Windows it runs as it is, elsewhere by Wine, and where that is missing it ends with 77. Wine is not Windows: what stands in
a file that somebody locked can be read there, and it knows no consoles of old.
"""

import json
import os
import shutil
import subprocess
import sys
import tempfile
import threading
import time
from pathlib import Path
from queue import Empty, Queue

HERE = os.name == "nt"
# The first start of Wine lays out a whole system.
PATIENCE = 60
# What Wine ends with where it could not load a program's libraries.
MISSING_LIBRARY = 53

failed = []


def tell(holds, what, said=""):
    print(f"{'holds' if holds else 'FAILS'}: {what}", flush=True)
    if not holds:
        failed.append(what)
        print(said, flush=True)


class Windows:
    """Where the program runs."""

    def __init__(self, program, folder):
        self.folder = folder
        self.starts = [str(program)] if HERE else ["wine", str(program)]
        self.environment = {**os.environ, "NO_COLOR": "1"}
        if not HERE:
            # A system of its own, so that nothing of this user's changes.
            self.environment |= {"WINEPREFIX": str(folder / "wine"), "WINEDEBUG": "-all", "WINEARCH": "win64", "DISPLAY": ""}

    def path(self, name):
        """The whole path of a file, as Windows writes it."""
        path = self.folder / "beck" / name
        return str(path) if HERE else "Z:" + str(path).replace("/", "\\")

    def run(self, *words):
        started = time.monotonic()
        done = subprocess.run(
            [*self.starts, *words], cwd=self.folder / "beck", env=self.environment, capture_output=True, timeout=PATIENCE
        )
        text = done.stdout.decode() + done.stderr.decode()
        return done.returncode, text.replace("\r\n", "\n"), time.monotonic() - started

    def close(self):
        if not HERE:
            subprocess.run(["wineserver", "-k"], env=self.environment, check=False)


class Editor:
    """An editor's side of the language server's protocol."""

    def __init__(self, windows):
        self.child = subprocess.Popen(
            [*windows.starts, "serve"], stdin=subprocess.PIPE, stdout=subprocess.PIPE, env=windows.environment
        )
        self.heard = Queue()
        self.asked = 0
        threading.Thread(target=self.listen, daemon=True).start()

    def listen(self):
        while True:
            length = 0
            while line := self.child.stdout.readline().strip():
                name, value = line.split(b":", 1)
                if name.lower() == b"content-length":
                    length = int(value)
            if not length:
                return
            self.heard.put(json.loads(self.child.stdout.read(length)))

    def send(self, message):
        body = json.dumps({"jsonrpc": "2.0", **message}).encode()
        self.child.stdin.write(b"Content-Length: %d\r\n\r\n%s" % (len(body), body))
        self.child.stdin.flush()

    def tell(self, method, params):
        self.send({"method": method, "params": params})

    def wait(self, wanted):
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            try:
                message = self.heard.get(timeout=1)
            except Empty:
                continue
            if wanted(message):
                return message
        return {}

    def ask(self, method, params):
        self.asked += 1
        mine = self.asked
        self.send({"id": mine, "method": method, "params": params})
        return self.wait(lambda message: message.get("id") == mine and "method" not in message)


FLIES = "fly bracken\n  hook    #14\n  bead    2.8 mm tungsten\n"
ILL = "rig ill\n  tippet  4     of 5X fluoro\n  point   #14\n"
UNTIDY = "rig low\r\ntippet 4 ft of 5X fluoro\r\npoint #14\r\n"


def uses(path):
    return f'use "{path}"\n\nrig low\n  tippet  4 ft  of 5X fluoro\n  point   bracken\n'


def write(beck):
    (beck / "sub").mkdir(parents=True)
    # The mark of a project's top.
    (beck / ".git").mkdir()
    for name, text in {
        "sub/flies.rig": FLIES,
        "ill.rig": ILL,
        "untidy.rig": UNTIDY,
        "low.rig": uses("sub/flies.rig"),
        "back.rig": uses("sub\\flies.rig"),
        "sub/far water.rig": uses("flies.rig"),
        "page.md": "# Low water\n\n<!-- rig: use \"low.rig\" -->\n<!-- rig: stuff of tippet of low --><!-- rig: end -->\n",
    }.items():
        (beck / name).write_bytes(text.encode())


def commands(windows, beck):
    code, said, _ = windows.run("--version")
    tell(code == 0 and said.startswith("snell "), f"it tells its version: {said.strip()}", said)

    code, said, took = windows.run("check", "ill.rig")
    tell(code == 1 and "`4` has no unit" in said, "it tells a finding", said)
    tell(took < 10, f"… within ten seconds: {took:.1f}")

    whole = windows.path("sub\\far water.rig")
    for path in ("sub\\far water.rig", ".\\sub\\..\\sub\\far water.rig", whole, whole[0].lower() + whole[1:]):
        code, said, _ = windows.run("check", path)
        tell(code == 0 and "1 rig in 2 files" in said, f"a path is taken: {path[:3]}…", said)
    code, said, _ = windows.run("check", whole, "sub\\far water.rig", whole[0].lower() + whole[1:])
    tell(code == 0 and "1 rig in 2 files" in said, "one file by three paths is one file", said)

    code, said, _ = windows.run("check", "low.rig")
    tell(code == 0, "a file of another folder is used", said)
    code, said, _ = windows.run("check", "back.rig")
    tell(code == 1 and "has a backslash" in said, "`use` with a backslash is told", said)

    code, said, _ = windows.run("show", "low.rig")
    tell(code == 0 and "bracken" in said and "4 ft" in said, "it shows a rig", said)
    code, said, _ = windows.run("draw", "low", "--in", "low.rig", "--out", "sub\\low.png")
    drawn = beck / "sub" / "low.png"
    tell(code == 0 and drawn.is_file() and drawn.read_bytes()[:4] == b"\x89PNG", "it draws a picture into a file", said)

    code, said, _ = windows.run("tidy", "untidy.rig")
    tidied = (beck / "untidy.rig").read_bytes()
    tell(code == 0 and b"\r\n  tippet  4 ft" in tidied, "it lays a file out", said)
    tell(tidied.count(b"\n") == tidied.count(b"\r\n"), "… whose lines end as they did", repr(tidied))
    code, said, _ = windows.run("fill", "page.md")
    tell(code == 0 and b"-->5X fluoro<!--" in (beck / "page.md").read_bytes(), "it fills an article", said)
    left = [path.name for path in beck.iterdir() if path.name.startswith(".snell")]
    tell(not left, "nothing is left lying beside", repr(left))


def editor(windows):
    address = "file:///" + windows.path("ill.rig").replace("\\", "/").replace(":", "%3A")
    address = address[:8] + address[8].lower() + address[9:]
    client = Editor(windows)
    answer = client.ask("initialize", {"processId": None, "rootUri": None, "capabilities": {}})
    tell("capabilities" in answer.get("result", {}), "the server shakes hands", repr(answer))
    client.tell("initialized", {})
    client.tell("textDocument/didOpen", {"textDocument": {"uri": address, "languageId": "rig", "version": 1, "text": ILL}})
    found = client.wait(lambda message: message.get("method") == "textDocument/publishDiagnostics").get("params", {})
    tell(any("has no unit" in one["message"] for one in found.get("diagnostics", [])), "… tells a finding", repr(found))
    tell(found.get("uri") == address, "… by the address that the editor has", f"{found.get('uri')} for {address}")
    client.ask("shutdown", None)
    client.tell("exit", None)
    try:
        tell(client.child.wait(PATIENCE) == 0, "… and ends")
    except subprocess.TimeoutExpired:
        client.child.kill()
        tell(False, "… and ends")


def main():
    if len(sys.argv) != 2 or not Path(sys.argv[1]).is_file():
        sys.exit("usage: windows.py SNELL.EXE, which is a program")
    if not HERE and not shutil.which("wine"):
        print("there is no wine here")
        sys.exit(77)
    folder = Path(tempfile.mkdtemp())
    windows = Windows(Path(sys.argv[1]).resolve(), folder)
    try:
        write(folder / "beck")
        if not HERE and windows.run("--version")[0] == MISSING_LIBRARY:
            print("the Wine here lacks a library of Windows; Debian 12's has no bcryptprimitives.dll, which all of Rust wants")
            sys.exit(77)
        commands(windows, folder / "beck")
        editor(windows)
    finally:
        windows.close()
        shutil.rmtree(folder, ignore_errors=True)
    sys.exit(1 if failed else 0)


main()
