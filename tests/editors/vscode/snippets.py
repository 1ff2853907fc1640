#!/usr/bin/env python3
"""Holds that what the snippets write can be read, with what they propose left as it is.

    snippets.py SNELL FOLDER
"""

import json
import re
import subprocess
import sys
import tempfile
from pathlib import Path

# What a proposed name leads to, and a line that stands alone.
OF_NAMES = {"name-unknown", "rule-unknown", "expect-unknown"}

TODAY = {"$CURRENT_YEAR": "2026", "$CURRENT_MONTH": "05", "$CURRENT_DATE": "14"}


def written(body):
    """The text that a snippet writes."""
    text, proposed = "\n".join(body), {}
    for name, value in TODAY.items():
        text = text.replace(name, value)

    def propose(found):
        proposed[found[1]] = found[2].split(",")[0]
        return proposed[found[1]]

    text = re.sub(r"\$\{(\d+)(?:\||:)([^|}]*)\|?\}", propose, text)
    text = re.sub(r"\$\{?(\d+)\}?", lambda found: proposed.get(found[1], ""), text)
    assert "$" not in text, text
    return text


def main(snell, folder):
    faults, read = [], 0
    for language, ending in (("rig", "rig"), ("markdown", "md")):
        snippets = json.loads(Path(folder, "snippets", f"{language}.json").read_text(encoding="utf-8"))
        for name, snippet in snippets.items():
            text = written(snippet["body"])
            alone = len(snippet["body"]) == 1
            page = f"rig a\n  {text}\n" if alone else text
            with tempfile.TemporaryDirectory() as beside:
                file = Path(beside, f"page.{ending}")
                file.write_text(page, encoding="utf-8")
                command = [snell, "check", "--form", "json", file]
                told = subprocess.run(command, capture_output=True, encoding="utf-8", timeout=60)
            findings = json.loads(told.stdout)["findings"]
            wrong = [one["message"] for one in findings if one["level"] == "fault" and one["rule"] not in OF_NAMES]
            faults += [f"{name}: {message}" for message in wrong]
            read += 1
    for fault in faults:
        print(f"snippets: {fault}", file=sys.stderr)
    if not faults:
        print(f"holds: what {read} snippets write can be read")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
