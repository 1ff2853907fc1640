"""How much of each crate was run through, of what `llvm-cov export -summary-only` tells of its files.

    covered.py SUMMARY.json
"""

import json
import sys
from collections import defaultdict

files = json.load(open(sys.argv[1]))["data"][0]["files"]
crates = defaultdict(lambda: [0, 0, 0, 0])
for file in files:
    before, crate, _ = file["filename"].partition("/src/")
    if not crate or "/crates/" not in before:
        continue
    lines, functions = file["summary"]["lines"], file["summary"]["functions"]
    row = crates[before.rsplit("/", 1)[1]]
    for place, count in enumerate([lines["covered"], lines["count"], functions["covered"], functions["count"]]):
        row[place] += count
for crate, (lines, of_lines, functions, of_functions) in sorted(crates.items()):
    share = 100 * lines / max(1, of_lines)
    print(f"{crate:16} {share:5.1f} % of {of_lines:6} lines   {100 * functions / max(1, of_functions):5.1f} % of {of_functions:5} functions")
