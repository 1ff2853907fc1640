#!/usr/bin/env python3
"""Holds the colours that a highlighter gives to rigs against what they must be.

    colours.py FOLDER COMMAND…

COMMAND is run with a file of FOLDER behind it, and prints it with the escapes of
a terminal (ECMA-48). Which colour is which is the theme's; but words of one sort
have one, and no two sorts have the same.
"""

import re
import subprocess
import sys
from pathlib import Path

# File, line, and word for each sort.
WORDS = {
    "a kind of block": [("days.rig", 5, "outing"), ("beck.rig", 17, "rig"), ("beck.rig", 14, "rulebook"), ("flies.rig", 3, "fly")],
    "a key": [("days.rig", 6, "day"), ("days.rig", 8, "caught"), ("beck.rig", 20, "tippet"), ("flies.rig", 5, "bead")],
    "a number": [("days.rig", 6, "2026-05-14"), ("days.rig", 8, "3"), ("beck.rig", 20, "32"), ("flies.rig", 5, "2")],
    "a text": [("days.rig", 5, '"they came up at dusk"'), ("days.rig", 10, '"Nothing until the sun was off the water."')],
    "a comment": [("days.rig", 1, "// Days at the water"), ("beck.rig", 1, "// An evening on the beck")],
    "a joining word": [("days.rig", 8, "on"), ("beck.rig", 20, "of"), ("beck.rig", 21, "with")],
    "a name": [("days.rig", 7, "evening"), ("beck.rig", 21, "slate")],
}

SELECTION = re.compile(r"\x1b\[([0-9;]*)([A-Za-z])")


def foreground(style, codes):
    """The colour and weight of letters after some codes."""
    codes = [int(code or 0) for code in codes.split(";")]
    while codes:
        code = codes.pop(0)
        if code == 0:
            style = ()
        elif code in (38, 48):
            colour = [codes.pop(0) for _ in range(4 if codes[0] == 2 else 2)]
            if code == 38:
                style = (*[part for part in style if not isinstance(part, tuple)], tuple(colour))
        elif code in (1, 3):
            style = (*style, code)
        elif code in (21, 22, 23):
            style = tuple(part for part in style if part != {21: 1, 22: 1, 23: 3}[code])
    return style


def read(printed):
    """Each line as its letters, each with its style."""
    lines, style = [], ()
    for line in printed.split("\n"):
        letters, at = [], 0
        for found in SELECTION.finditer(line):
            letters += [(letter, style) for letter in line[at : found.start()]]
            at = found.end()
            if found[2] == "m":
                style = foreground(style, found[1])
        lines.append(letters + [(letter, style) for letter in line[at:]])
    return lines


def style_of(lines, number, word):
    """The style of a word, or of its parts where they differ."""
    letters = lines[number - 1]
    text = "".join(letter for letter, _ in letters)
    start = re.search(rf"(?<![\w-]){re.escape(word)}(?![\w-])" if word[0].isalnum() else re.escape(word), text)
    if start is None:
        return None
    return {tuple(sorted(map(str, style))) for letter, style in letters[start.start() : start.end()] if letter != " "}


def main(folder, *command):
    pages = {}
    for file in sorted({file for words in WORDS.values() for file, _, _ in words}):
        done = subprocess.run([*command, Path(folder, file)], check=True, capture_output=True, encoding="utf-8", timeout=60)
        pages[file] = read(done.stdout)
    faults, sorts = [], {}
    for sort, words in WORDS.items():
        styles = {word: style_of(pages[file], line, word) for file, line, word in words}
        first = next(iter(styles.values()))
        for word, style in styles.items():
            if style is None or len(style) != 1 or style != first:
                faults.append(f"`{word}` as {sort}: {style}, others have {first}")
        sorts[sort] = str(first)
    for sort, style in sorts.items():
        faults += [f"{sort} looks like {other}: {style}" for other, same in sorts.items() if other < sort and same == style]
    for fault in faults:
        print(f"colours: {fault}", file=sys.stderr)
    if not faults:
        print(f"holds: {len(sorts)} sorts of words have a colour each")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
