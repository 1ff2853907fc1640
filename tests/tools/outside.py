"""Reads the same findings in three forms, and fails where they differ.

Arguments: a SARIF log, a JUnit file, and the findings one a line.
"""

import json
import re
import sys
from collections import Counter
from pathlib import Path
from urllib.parse import unquote, urlparse

from junitparser import JUnitXml

LEVELS = {"error": "fault", "warning": "caution", "note": "advice"}
LINE = re.compile(r"(?P<file>.*?):(?P<line>\d+):(?P<column>\d+): (?P<level>\w+): (?P<rule>[\w-]+): (?P<message>.*)")


def listed(path):
    """Findings, one a line, as tuples."""
    lines = Path(path).read_text(encoding="utf-8").splitlines()
    read = [LINE.fullmatch(line) for line in lines]
    assert all(read), "a line is not file:line:column: level: rule: message"
    return [(int(m["line"]), m["level"], m["rule"], m["message"]) for m in read]


def logged(path):
    """Findings of a SARIF log, as the same tuples; its places are looked up in the files that are there."""
    run = json.loads(Path(path).read_text(encoding="utf-8"))["runs"][0]
    rules = run["tool"]["driver"]["rules"]
    found = []
    for result in run["results"]:
        assert rules[result["ruleIndex"]]["id"] == result["ruleId"], "a rule's index is wrong"
        places = [at["physicalLocation"] for at in result["locations"] + result.get("relatedLocations", [])]
        for fix in result.get("fixes", []):
            assert isinstance(fix["properties"]["sure"], bool)
            for change in fix["artifactChanges"]:
                for made in change["replacements"]:
                    places.append({"artifactLocation": change["artifactLocation"], "region": made["deletedRegion"]})
        for place in places:
            look_up(place)
        text = result["message"]["text"].replace("{{", "{").replace("}}", "}")
        line = result["locations"][0]["physicalLocation"]["region"]["startLine"]
        found.append((line, LEVELS[result["level"]], result["ruleId"], text))
    return found


def look_up(place):
    """A region lies in its file; a page that ships, or that came by a pipe, is no file."""
    uri = urlparse(place["artifactLocation"]["uri"])
    assert uri.scheme in ("", "file"), f"{uri.scheme} is no scheme for a file"
    path = Path(unquote(uri.path))
    if "uriBaseId" in place["artifactLocation"] or not path.is_file():
        return
    text = path.read_bytes().decode("utf-8-sig")
    lines = re.split("\r\n|\n|\r", text)
    at = place["region"]
    for line, column in ((at["startLine"], at["startColumn"]), (at["endLine"], at["endColumn"])):
        assert 1 <= line <= len(lines), f"{path}: there is no line {line}"
        assert 1 <= column <= len(lines[line - 1]) + 1, f"{path}:{line}: there is no column {column}"


def main(sarif, junit, lines):
    wanted = listed(lines)
    assert Counter(logged(sarif)) == Counter(wanted), "SARIF and the lines differ"

    suites = JUnitXml.fromfile(junit)
    suites = list(suites)
    failures, light = 0, 0
    for suite in suites:
        cases = list(suite)
        failing = [case for case in cases if any(type(one).__name__ == "Failure" for one in case.result)]
        assert suite.tests == len(cases), f"{suite.name}: tests"
        assert suite.failures == len(failing), f"{suite.name}: failures"
        assert suite.errors == 0, f"{suite.name}: errors"
        failures += sum(len(case.result) for case in failing)
        light += sum(case.system_out.count(": advice: ") for case in cases if case.system_out)
    heavy = [one for one in wanted if one[1] != "advice"]
    assert failures == len(heavy), f"{failures} failures for {len(heavy)} findings that count"
    assert light == len(wanted) - len(heavy), "findings that do not count are not all told"
    whole = JUnitXml.fromfile(junit)
    assert whole.tests == sum(suite.tests for suite in suites), "the sum of tests"
    assert whole.failures == sum(suite.failures for suite in suites), "the sum of failures"


if __name__ == "__main__":
    try:
        main(*sys.argv[1:])
    except AssertionError as wrong:
        sys.exit(f"outside: {wrong}")
