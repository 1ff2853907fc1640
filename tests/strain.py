"""What every command takes on texts that nobody means well with: at most 2 s of CPU and 256 MiB, or a limit that is told.

    cargo build --release -p snell
    python3 tests/strain.py [--snell PATH] [--family WORD] [--all]

Each run is measured by the system (its CPU time and the most memory it held), so that what else the machine does hardly
counts. Printed are the runs that go beyond, or all with `--all`; it ends with 1 if one goes beyond and tells no limit. It
is no test of `cargo test`, which must not depend on a machine; how work grows is counted in `tests/cases/growth.rs`.
"""

import argparse
import json
import os
import re
import subprocess
import sys
import tempfile
import threading
import time
from pathlib import Path

TOP = Path(__file__).resolve().parent.parent
MOST_SECONDS, MOST_MIB, ENDED_AFTER = 2.0, 256, 60

# What says that a limit was met: the faults of the page of limits, and its messages.
LIMITS = (TOP / "grammar/limits.md").read_text()
TOLD = re.findall(r"the fault `([a-z-]+)`", LIMITS) + re.findall(r"“… (.*?) …”", LIMITS)

WATER = "  method tight-line\n  water 3 ft at 2 ft/s over cobble\n"
TOP_END = "  sighter 40 cm of 0.20 mm nylon\n  ring 2 mm\n"
POINT = "  tippet 50 cm of 6X fluoro\n  point #14 2.8 mm tungsten\n"
RIG = f"rig a\n{WATER}{TOP_END}{POINT}\n"


def lines(count, line):
    return "".join(line(number) for number in range(count))


def pairs(count):
    pair = lambda number: f"  tippet {40 + number % 9} cm of 5X fluoro\n  dropper 10 cm with #16 2.4 mm tungsten\n"
    return f"rig a\n{WATER}{TOP_END}{lines(count, pair)}{POINT}\n"


def rules(count):
    rule = lambda number: (
        f"rule r{number}\n  limit least {100 + 7 * number} in\n  keep tippet at least least\n"
        f'  say "short"\n  mend tippet to least\n\n'
    )
    names = ", ".join(f"r{number}" for number in range(count))
    return f"rulebook mine\n  with {names}\n\n{lines(count, rule)}rig a\n  rules mine\n{WATER}{TOP_END}{POINT}"


FAMILIES = {
    "deep parentheses": {"a.rig": "rig a\n" + lines(500, lambda n: f"  let b{n} = {'(' * 8000}1 m{')' * 8000}\n")},
    "parentheses as deep as allowed": {"a.rig": RIG + lines(1500, lambda n: f"  let b{n} = {'(' * 32}1 m{' + 1 m)' * 32}\n")},
    "100,000 short lines": {"a.rig": "rig a\n" + "  a\n" * 100_000},
    "one line of 5 MB": {"a.rig": "rig a\n  note \"" + "a" * 5_000_000 + "\"\n"},
    "5 MB of blocks": {"a.rig": lines(18_000, lambda n: f"fly f{n}\n  hook #14\n  note \"{'a' * 240}\"\n\n")},
    "5 MB of letters": {"a.rig": "letters " * 640_000},
    "3,000 flies": {"a.rig": lines(3_000, lambda n: f"fly f{n}\n  hook #{10 + n % 9}\n  bead {20 + n % 20}/10 mm tungsten\n\n") + RIG},
    "400 pairs": {"a.rig": pairs(400)},
    "50 variants of variants": {"a.rig": RIG + lines(50, lambda n: f"rig v{n} from {'a' if n == 0 else f'v{n - 1}'}\n  change tippet to {45 + n} cm\n\n")},
    "a chain of 200 files": {
        **{f"f{n}.rig": f'use "f{n + 1}.rig"\n\n{RIG.replace("rig a", f"rig r{n}")}' for n in range(200)},
        "f200.rig": RIG, "a.rig": 'use "f0.rig"\n\n' + RIG,
    },
    "a chain of 2,000 bases": {"a.rig": RIG + lines(2_000, lambda n: f"rig v{n} from {'a' if n == 0 else f'v{n - 1}'}\n  change tippet to {45 + n} cm\n\n")},
    "10,000 findings": {"a.rig": lines(10_000, lambda n: f"fly f{n}\n  hook 1\n\n")},
    "60 rules with mends": {"a.rig": rules(60)},
    "values that hang on one another": {"a.rig": RIG + lines(1_900, lambda n: f"  let v{n} = v{n + 1} + v{n + 1}\n")},
    "2,000 fences": {"a.md": lines(2_000, lambda n: f"```rig alone\n{RIG if n == 0 else RIG.replace('rig a', f'rig r{n}')}```\n\n")},
    "2,000 fences of one file": {"a.md": f"```rig\n{RIG}```\n\n" + lines(2_000, lambda n: f"```rig\nfly f{n}\n  hook #14\n```\n\n")},
    "2,000 markers": {"a.md": f"```rig\n{RIG}```\n\n" + lines(2_000, lambda n: "a <!-- rig: total of a --><!-- rig: end --> b\n\n")},
    "2,000 markers of tables": {"a.md": f"```rig\n{RIG}```\n\n" + lines(2_000, lambda n: "<!-- rig: show a -->\n<!-- rig: end -->\n\n")},
    "lists in lists": {"a.md": lines(3_000, lambda n: " " * (2 * (n % 200)) + "- > - a\n")},
    "long lines in one's own hand": {"a.rig": "rig a\n" + "".join(
        f"  {key} {words * (2_000 // len(words))}\n"
        for key in ["method", "tippet", "point", "water", "#14", "2 ft"]
        for words in ["a ", "no ", "to ", "x ", "> ", "2-3 ", "slow ", "blood knot ", "tight line "]
    )},
    "spreads everywhere": {"a.rig": lines(100, lambda n: f"rig {'a' if n == 0 else f'r{n}'}\n  method tight-line\n  water 1 ft to 6 ft at 0.5 ft/s to 4 ft/s over cobble\n{TOP_END}  tippet 30 cm to 80 cm of 5X fluoro\n{POINT}\n")},
}

# Asked of one rig: of many they take as many times as long.
RIGS = ["draw", "drift", "card", "cut", "fit"]


def commands(name):
    """Every command that reads the family."""
    asked = [["check", name], ["check", "--form", "json", name], ["check", "--mend", name], ["tidy", "--check", name]]
    if name.endswith(".md"):
        asked.append(["fill", "--check", name])
    return asked + [["show", name], ["export", name]] + [[command, "--in", name, "a"] for command in RIGS] + [["compare", name, "other.rig"]]


def measured(program, arguments, folder):
    """CPU seconds, MiB, status, and what was said."""
    with tempfile.TemporaryFile() as out:
        child = subprocess.Popen([program, *arguments], cwd=folder, stdin=subprocess.DEVNULL, stdout=out, stderr=subprocess.STDOUT)
        ends = time.monotonic() + ENDED_AFTER * 4
        while True:
            done, status, usage = os.wait4(child.pid, os.WNOHANG)
            if done:
                break
            cpu = sum(float(part) for part in Path(f"/proc/{child.pid}/stat").read_text().rsplit(") ", 1)[1].split()[11:13]) / os.sysconf("SC_CLK_TCK")
            if cpu > ENDED_AFTER or time.monotonic() > ends:
                child.kill()
            time.sleep(0.02)
        child.returncode = os.waitstatus_to_exitcode(status)
        out.seek(0)
        said = out.read(50_000_000).decode(errors="replace")
    return usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024, child.returncode, said


def served(program, folder, asked):
    """The same of a server that is ended when it has answered all that was asked."""
    child = subprocess.Popen([program, "serve"], cwd=folder, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    timer = threading.Timer(ENDED_AFTER * 4, child.kill)
    timer.start()
    waited, said = {message["id"] for message in asked if "id" in message}, ""
    try:
        child.stdin.write(b"".join(framed(message) for message in asked))
        child.stdin.flush()
        while waited:
            answer = heard(child.stdout)
            said += json.dumps(answer)[:20_000]
            if "method" not in answer:
                waited.discard(answer.get("id"))
        last = [{"jsonrpc": "2.0", "id": "last", "method": "shutdown"}, {"jsonrpc": "2.0", "method": "exit"}]
        child.stdin.write(framed(last[0]))
        child.stdin.flush()
        while heard(child.stdout).get("id") != "last":
            pass
        child.stdin.write(framed(last[1]))
        child.stdin.close()
    except (StopIteration, BrokenPipeError):
        pass
    _, status, usage = os.wait4(child.pid, 0)
    timer.cancel()
    child.returncode = os.waitstatus_to_exitcode(status)
    return usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024, child.returncode, said


def heard(stream):
    """The next message of a server."""
    lines = iter(stream.readline, b"")
    length = next(int(line.split(b":")[1]) for line in lines if line.lower().startswith(b"content-length"))
    stream.readline()
    return json.loads(stream.read(length))


def framed(message):
    body = json.dumps(message).encode()
    return b"Content-Length: %d\r\n\r\n%s" % (len(body), body)


def session(text, language):
    """An editor that opens a text and asks all that it asks of one."""
    uri = "file:///none/a." + ("md" if language == "markdown" else "rig")
    document = {"uri": uri}
    everything = {"start": {"line": 0, "character": 0}, "end": {"line": 10_000_000, "character": 0}}
    place = {"line": 2, "character": 4}
    asked = [("initialize", {"capabilities": {}}), ("initialized", {})]
    asked.append(("textDocument/didOpen", {"textDocument": {"uri": uri, "languageId": language, "version": 1, "text": text}}))
    for name in ["documentSymbol", "semanticTokens/full", "foldingRange", "codeLens", "documentLink"]:
        asked.append((f"textDocument/{name}", {"textDocument": document}))
    asked.append(("textDocument/inlayHint", {"textDocument": document, "range": {**everything, "end": {"line": 60, "character": 0}}}))
    asked.append(("textDocument/formatting", {"textDocument": document, "options": {"tabSize": 2, "insertSpaces": True}}))
    for name in ["hover", "completion", "definition", "documentHighlight"]:
        asked.append((f"textDocument/{name}", {"textDocument": document, "position": place}))
    told = {"initialized", "textDocument/didOpen"}
    sent = []
    for number, (method, params) in enumerate(asked):
        message = {"jsonrpc": "2.0", "method": method, "params": params}
        if method not in told:
            message["id"] = number
        sent.append(message)
    return sent


def history(folder, count):
    """A repository of so many states of a notebook."""
    stream = []
    for number in range(count):
        text = RIG.replace("tippet 50 cm", f"tippet {40 + number % 30} cm") + f"fly f{number % 7}\n  hook #14\n"
        stream.append(f"blob\nmark :{2 * number + 1}\ndata {len(text)}\n{text}\n")
        day = 1_600_000_000 + 86_400 * number
        stream.append(f"commit refs/heads/main\nmark :{2 * number + 2}\ncommitter A <a@example.org> {day} +0000\ndata 2\na\n")
        stream.append((f"from :{2 * number}\n" if number else "") + f"M 100644 :{2 * number + 1} a.rig\n\n")
    quiet = {"cwd": folder, "check": True, "stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
    subprocess.run(["git", "init", "-b", "main"], **quiet)
    subprocess.run(["git", "fast-import"], input="".join(stream).encode(), **quiet)
    subprocess.run(["git", "reset", "--hard"], **quiet)


def main():
    options = argparse.ArgumentParser()
    options.add_argument("--snell", default=str(TOP / "target/release/snell"))
    options.add_argument("--family", default="")
    options.add_argument("--all", action="store_true")
    options = options.parse_args()
    beyond = runs = 0
    worst = [0.0, 0.0]

    def run(family, arguments, folder, asked=None):
        nonlocal beyond, runs
        found = served(options.snell, folder, asked) if asked else measured(options.snell, arguments, folder)
        cpu, mib, status, said = found
        runs += 1
        worst[0], worst[1] = max(worst[0], cpu), max(worst[1], mib)
        within = cpu <= MOST_SECONDS and mib <= MOST_MIB and status in (0, 1, 2)
        joined = " ".join(said.split())
        limit = next((words for words in TOLD if words in joined), None)
        if not within and (limit is None or status not in (0, 1, 2)):
            beyond += 1
        if options.all or not within:
            what = "" if within else f"  BEYOND{f', tells `{limit}`' if limit else ''}"
            print(f"{cpu:7.2f} s {mib:6.0f} MiB  {status:3}  {family}: {' '.join(arguments)}{what}", flush=True)

    for family, files in FAMILIES.items():
        if options.family not in family:
            continue
        with tempfile.TemporaryDirectory() as folder:
            name = "a.md" if "a.md" in files else "a.rig"
            language = "markdown" if name == "a.md" else "rig"
            for arguments in [*commands(name), ["serve"]]:
                for file, text in {**files, "other.rig": RIG}.items():
                    (Path(folder) / file).write_text(text)
                run(family, arguments, folder, session(files[name], language) if arguments == ["serve"] else None)
    if options.family in "1,000 commits":
        with tempfile.TemporaryDirectory() as folder:
            history(folder, 1_000)
            for arguments in [["season"], ["season", "--who"], ["season", "--form", "json"], ["compare", "HEAD~900", "HEAD"]]:
                run("1,000 commits", arguments, folder)
    print(f"{runs} runs; the most CPU {worst[0]:.2f} s, the most memory {worst[1]:.0f} MiB; {beyond} beyond, telling no limit")
    sys.exit(1 if beyond else 0)


if __name__ == "__main__":
    main()
