"""What the renderers themselves take for blocks of rigs on the pages of tests/data/pages.

    fences.py PANDOC FOLDER-OF-NODE-MODULES          compares with what is recorded
    fences.py PANDOC FOLDER-OF-NODE-MODULES --write  records it anew

A block counts where the word that the renderer takes for its language is `rig`, once it is cut where a word ends:
`rig,editable` is the language `rig,editable` to most of them, and yet a rig.
"""

import json
import pathlib
import re
import subprocess
import sys

from docutils import nodes
from docutils.core import publish_doctree

ROOT = pathlib.Path(__file__).resolve().parents[1] / "data" / "pages"
ANSWERS = ROOT / "answers.json"
PANDOC, MODULES = sys.argv[1], sys.argv[2]


def is_rig(word):
    return word.lower() == "rig"


def words(language):
    return [word for word in re.split(r"[\s,{}:;.()]+", language) if word]


def node(markup, page):
    script = pathlib.Path(__file__).with_suffix(".mjs")
    done = subprocess.run(
        ["node", script, markup], input=page.read_bytes(), cwd=MODULES, stdout=subprocess.PIPE, check=True
    )
    return json.loads(done.stdout)


def pandoc(form, page):
    command = [PANDOC, "-f", form, "-t", "json", "--preserve-tabs", page]
    tree = json.loads(subprocess.run(command, stdout=subprocess.PIPE, check=True).stdout)
    found = []

    def walk(value):
        if isinstance(value, list):
            for one in value:
                walk(one)
        elif isinstance(value, dict):
            if value.get("t") == "CodeBlock":
                (_, classes, _), text = value["c"]
                if any(is_rig(word) for one in classes for word in words(one)):
                    found.append(text)
            for one in value.values():
                walk(one)

    walk(tree["blocks"])
    return found


def docutils(parser, page):
    settings = {
        "report_level": 5,
        "halt_level": 6,
        "warning_stream": False,
        "myst_enable_extensions": ["colon_fence", "deflist"],
    }
    tree = publish_doctree(page.read_text(), parser=parser, settings_overrides=settings)
    blocks = tree.findall(nodes.literal_block)
    return [code(one) for one in blocks if "rig" in [one.get("language"), *one["classes"]]]


def code(block):
    """The text of a block, without the numbers of its lines."""
    parts = [part for part in block.children if "ln" not in (part.get("classes") if hasattr(part, "get") else [])]
    return "".join(part.astext() for part in parts)


def restructured(page):
    from docutils.parsers.rst import Parser

    return docutils(Parser(), page)


def myst(page):
    from myst_parser.docutils_ import Parser

    return docutils(Parser(), page)


READERS = {
    "commonmark": lambda page: node("markdown", page),
    "github": lambda page: pandoc("gfm", page),
    "pandoc": lambda page: pandoc("markdown", page),
    "quarto": lambda page: pandoc("markdown", page),
    "myst": myst,
    "asciidoc": lambda page: node("asciidoc", page),
    "restructured": restructured,
}


def answers():
    found = {}
    for dialect, read in READERS.items():
        for page in sorted((ROOT / dialect).iterdir()):
            texts = [text.replace("\r\n", "\n").rstrip("\n") for text in read(page)]
            found[f"{dialect}/{page.name}"] = texts
    return found


def main():
    new = json.dumps(answers(), indent=1, ensure_ascii=False) + "\n"
    if "--write" in sys.argv:
        ANSWERS.write_text(new)
    elif new != ANSWERS.read_text():
        sys.exit("the renderers answer otherwise than is recorded: fences.sh --write, and read what changed")
    print(f"{len(json.loads(new))} pages")


main()
