"""Holds the editors' grammar against the language's own, line by line.

Arguments: the grammar as a shared library, its folder, and a file of lines
that begin with `read` or `broken` and a tab.
"""

import ctypes
import sys
from pathlib import Path

from tree_sitter import Language, Parser, Query

# Of lines put together at random, so many in ten thousand may be read otherwise than by the language itself.
STRAY = 1

# So many in ten thousand may make the line below them look broken.
SPREADING = 10


def language(library):
    """The language that a shared library holds."""
    function = ctypes.CDLL(library).tree_sitter_rig
    function.restype = ctypes.c_void_p
    capsule = ctypes.pythonapi.PyCapsule_New
    capsule.restype = ctypes.py_object
    capsule.argtypes = (ctypes.c_void_p, ctypes.c_char_p, ctypes.c_void_p)
    return Language(capsule(function(), b"tree_sitter.Language", None))


def is_sound(node):
    """Whether a tree has neither errors nor parts that the grammar itself calls malformed."""
    if node.has_error:
        return False
    waiting = [node]
    while waiting:
        one = waiting.pop()
        if one.type == "malformed":
            return False
        waiting.extend(one.children)
    return True


def hurts_neighbours(parser, line):
    """Whether a broken line makes a sound one below it look broken."""
    root = parser.parse(f"rig a\n{line}\n  tippet 20 in of 6X\n".encode()).root_node
    last = root.children[-1] if root.children else root
    return last.type != "plain" or last.has_error or last.start_point[0] != 2


def main(library, folder, judged):
    rig = language(library)
    parser = Parser(rig)
    lines = Path(judged).read_bytes().decode("utf-8").split("\n")
    lines = [line.split("\t", 1) for line in lines if line]
    other = []
    for verdict, line in lines:
        sound = is_sound(parser.parse(line.encode("utf-8")).root_node)
        if sound != (verdict == "read"):
            other.append((verdict, line))
    for verdict, line in other:
        print(f"{verdict} by the language, otherwise here: {line!r}")
    hurt = [line for verdict, line in lines if verdict == "broken" and hurts_neighbours(parser, line)]
    for line in hurt:
        print(f"spreads into the next line: {line!r}")
    allowed = len(lines) * STRAY // 10_000
    print(f"{len(lines)} lines, {len(other)} read otherwise, at most {allowed} may be")
    folders = [Path(folder, "queries"), Path("editors/helix/queries/rig"), Path("editors/zed/languages/rig")]
    queries = [query for folder in folders for query in folder.glob("*.scm")]
    assert len(queries) >= 5, "queries are missing"
    for query in queries:
        Query(rig, query.read_text(encoding="utf-8"))
    may_spread = len(lines) * SPREADING // 10_000
    print(f"{len(hurt)} broken lines spread into the next, at most {may_spread} may")
    return 0 if len(other) <= allowed and len(hurt) <= may_spread else 1


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
