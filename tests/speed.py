"""How long `snell check` takes beside two well-known checkers, as whole processes on this machine.

    cargo build --release -p snell
    python3 -m venv target/speed && target/speed/bin/pip install ruff taplo
    target/speed/bin/python tests/speed.py [--rounds 30] [--rigs 700] [--snell PATH]

It makes three files of equally many lines: rigs, Python and TOML, each of the kind that a person writes, each
without findings where the checker would stop at them. The three programs then take turns, so that whatever else the
machine does hits all alike. `ruff check` runs without its cache and without settings, `taplo lint` without a schema.
What is printed are medians and the ratio of each median to snell's; it is no test, because machines differ.
"""

import argparse
import os
import random
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

TOP = Path(__file__).resolve().parent.parent
WORDS = "bank bed bend bridge current depth eddy flow gauge gravel ledge level pool riffle run seam shelf sill stage weir".split()
UNITS = "m cm mm ft inch".split()


def name(chance):
    return "_".join(chance.choice(WORDS) for _ in range(chance.randint(1, 3))) + f"_{chance.randint(1, 999)}"


def python(chance, lines):
    """Small functions and classes with docstrings, branches, loops and calls, formatted as is usual."""
    text = ['"""Notes on a river, made up by rule."""', "", "import math", "from dataclasses import dataclass", "", ""]
    while len(text) < lines - 20:
        if chance.random() < 0.3:
            fields = [name(chance) for _ in range(chance.randint(3, 6))]
            text += ["@dataclass", f"class {name(chance).title().replace('_', '')}:", f'    """A {chance.choice(WORDS)} as measured."""', ""]
            text += [f"    {field}: float = {chance.uniform(0, 9):.2f}" for field in fields]
            text += ["", f"    def {name(chance)}(self) -> float:", f'        """The {chance.choice(WORDS)} over the {chance.choice(WORDS)}."""']
            text += [f"        return self.{fields[0]} * {chance.uniform(0, 9):.2f} + math.sqrt(self.{fields[1]})", "", ""]
        else:
            first, second = name(chance), name(chance)
            while second == first:
                second = name(chance)
            text += [f"def {name(chance)}({first}: float, {second}: float = {chance.uniform(0, 9):.2f}) -> float:"]
            text += [f'    """From {chance.choice(WORDS)} to {chance.choice(WORDS)}, in {chance.choice(UNITS)}."""']
            text += [f"    if {first} > {chance.uniform(0, 9):.2f} and {second} < {chance.randint(10, 99)}:"]
            text += [f"        return {first} * {second} / {chance.uniform(1, 9):.2f}", f"    total = {first}"]
            text += [f"    for step in range({chance.randint(2, 40)}):", f"        total += math.exp(-step / {chance.uniform(1, 9):.2f}) * {second}"]
            text += [f'    print(f"{chance.choice(WORDS)}: {{total:.2f}}")'] if chance.random() < 0.4 else []
            text += ["    return total", "", ""]
    return padded(text, lines)


def toml(chance, lines):
    """Tables of strings, numbers, dates and arrays."""
    text = ["# Notes on a river, made up by rule.", ""]
    while len(text) < lines - 12:
        text += [f"[{chance.choice(WORDS)}.{name(chance)}_{len(text)}]"]
        keys = list(dict.fromkeys(name(chance) for _ in range(chance.randint(4, 9))))
        for key in keys:
            kind = chance.randint(0, 4)
            values = [
                f'"{chance.choice(WORDS)} by the {chance.choice(WORDS)}"',
                f"{chance.uniform(0, 99):.2f}",
                str(chance.randint(0, 9999)),
                "[" + ", ".join(f'"{chance.choice(WORDS)}"' for _ in range(chance.randint(1, 5))) + "]",
                f"20{chance.randint(10, 29)}-0{chance.randint(1, 9)}-1{chance.randint(0, 9)}",
            ]
            text += [f"{key} = {values[kind]}"]
        text += [""]
    return padded(text, lines)


def padded(text, lines):
    """Comments make up the last few lines."""
    text = text[: lines - 1] + ["# end"] * max(0, lines - len(text))
    return "\n".join(text[:lines]) + "\n"


def once(command):
    start = time.perf_counter()
    ran = subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    return (time.perf_counter() - start) * 1000, ran.returncode


def tool(folder, program):
    beside = Path(sys.executable).parent / program
    found = str(beside) if beside.exists() else shutil.which(program)
    if not found:
        sys.exit(f"`{program}` is missing: pip install {program}")
    return found


def main():
    options = argparse.ArgumentParser(description="snell beside two other checkers")
    options.add_argument("--rounds", type=int, default=30)
    options.add_argument("--rigs", type=int, default=700)
    target = Path(os.environ.get("CARGO_TARGET_DIR", TOP / "target"))
    options.add_argument("--snell", default=str(target / "release" / "snell"))
    options = options.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        folder = Path(folder)
        made = ["cargo", "run", "--quiet", "-p", "snell-tests", "--bin", "generated-notebook", "--", str(options.rigs)]
        rigs = subprocess.run(made, cwd=TOP, check=True, capture_output=True, text=True).stdout
        lines = rigs.count("\n")
        chance = random.Random(14)
        files = {"notes.rig": rigs, "notes.py": python(chance, lines), "notes.toml": toml(chance, lines)}
        for file, text in files.items():
            assert text.count("\n") == lines, file
            (folder / file).write_text(text)
        commands = {
            "snell check": [options.snell, "check", "--bar", "fault", str(folder / "notes.rig")],
            "ruff check": [tool(folder, "ruff"), "check", "--no-cache", "--isolated", str(folder / "notes.py")],
            "taplo lint": [tool(folder, "taplo"), "lint", "--no-schema", str(folder / "notes.toml")],
        }
        times = {command: [] for command in commands}
        for command, words in commands.items():
            _, status = once(words)
            if status != 0:
                print(f"note: `{command}` ends with status {status}")
        for _ in range(options.rounds):
            for command, words in commands.items():
                times[command].append(once(words)[0])
    medians = {command: statistics.median(each) for command, each in times.items()}
    print(f"{lines} lines each, {options.rounds} rounds, whole processes, in milliseconds")
    for command, each in times.items():
        spread = statistics.quantiles(each, n=10)
        size = len(files[{"snell": "notes.rig", "ruff": "notes.py", "taplo": "notes.toml"}[command.split()[0]]]) // 1024
        print(f"{command:12} median {medians[command]:7.2f}   tenth {spread[0]:7.2f}   ninth tenth {spread[-1]:7.2f}   {size} KiB")
    for command in list(commands)[1:]:
        print(f"snell check takes {medians['snell check'] / medians[command]:.2f} x {command}")


if __name__ == "__main__":
    main()
