#!/usr/bin/env bash
# The forms for other programs, held against what those programs read: SARIF
# against the schema of the standard, JUnit through a parser of its own.
#
#   tests/tools/outside.sh target/release/snell
set -euo pipefail

# shellcheck source=tests/tools/needs.sh
. "$(dirname "$0")/needs.sh" "${1:-}" python3 npm

package=@microsoft/sarif-multitool-linux@5.7.0
python=(check-jsonschema==0.39.0 junitparser==5.0.3)
schema="$tools/sarif-2.1.0-from-5.7.0.json"
venv="$tools/python-0.39.0-5.0.3"
work="$(mktemp -d)"
trap 'rm -rf "$work"' EXIT

# Both are put in their places whole, so that a run that was broken off leaves nothing half done.
if [ ! -f "$schema" ]; then
  (cd "$work" && npm pack --silent "$package" >/dev/null && tar xzf ./*.tgz package/sarif-2.1.0.json)
  mv "$work/package/sarif-2.1.0.json" "$schema.new.$$"
  mv "$schema.new.$$" "$schema"
fi
if [ ! -f "$venv/complete" ]; then
  rm -rf "$venv"
  python3 -m venv "$venv"
  "$venv/bin/pip" install --quiet --disable-pip-version-check "${python[@]}"
  touch "$venv/complete"
fi

mkdir "$work/faulty folder"
cat >"$work/faulty folder/hasty #1.rig" <<'RIG'
// <Every> slip & "quote" is meant: é, 🎣.
fly bracken "a <small> & \"plain\" one"
  hook    14

water tail
  depth   2 to 3
  surface 2.2 ft/s
  bed     cobbel

rule mine
  about   "Mine & <yours>."
  for     each fly
  keep    fly.mass at most 0.1 g
  level   caution
  say     "{fly} is too heavy, {fly.mass}"
  source  "own"

rulebook ours
  with    mine

rig low "é & <low>"
  method  tight-line
  rules   ours, tight-line
  tippet  40 in  of 6X fluoro as upper
  dropper 12 in  with #16 2 mm tungsten
  tippet  12 in  of 5X fluoro as lower
  point   #12 3.8 mm tungsten

rig lower from low
  method  tight-line
RIG
cat >"$work/faulty folder/article.md" <<'PAGE'
# An article 🎣

> It quotes a card:
>
> ```rig
> rig quoted
>   tippet  20 of 6X fluoro
>   point   nobody
> ```

1. And lists one:

   ```rig alone
   rig listed
     tippet 20 in of 5 X fluoro
   ```
PAGE
printf '\xef\xbb\xbfrig marked\r\n  tippet 20 of 6X fluoro\r\n' >"$work/faulty folder/marked.rig"

failed=0
tell() {
  if [ "$1" = 0 ]; then echo "holds: $2"; else echo "FAILS: $2"; failed=1; fi
}

# check NAME FOUND PATH…: the forms of the findings in these paths; FOUND says whether there are any that count,
# or `perhaps`.
check() {
  local name="$1" wanted="$2" status ended
  shift 2
  for form in sarif junit lines; do
    status=0
    "$snell" check --form "$form" "$@" >"$work/$name.$form" <"${input:-/dev/null}" || status=$?
    case "$wanted:$status" in yes:1 | no:0 | perhaps:[01]) ended=0 ;; *) ended=1 ;; esac
    tell "$ended" "$name as $form ends with $status"
  done
  status=0
  "$venv/bin/check-jsonschema" --schemafile "$schema" "$work/$name.sarif" >"$work/said" 2>&1 || status=$?
  [ "$status" = 0 ] || cat "$work/said"
  tell "$status" "$name: the SARIF passes the schema of the standard"
  status=0
  "$venv/bin/python" tests/tools/outside.py "$work/$name.sarif" "$work/$name.junit" "$work/$name.lines" || status=$?
  tell "$status" "$name: places, counts and failures are right"
}

# Whether the examples are clean is checked elsewhere.
check examples perhaps examples
check faulty yes "$work/faulty folder"
check both yes examples "$work/faulty folder" crates/snell/tests/data
check clean no crates/snell/tests/data/clean.rig
input="$work/faulty folder/article.md" check page yes - --stdin-name notes/article.md
input="$work/faulty folder/hasty #1.rig" check input yes -

# schema OF FILE WANTED WHAT: whether a value passes the schema of a form that the program prints.
schema() {
  local of="$1" file="$2" wanted="$3" what="$4" status=0
  "$snell" export --schema "$of" >"$work/$of.schema"
  "$venv/bin/check-jsonschema" --schemafile "$work/$of.schema" "$file" >"$work/said" 2>&1 || status=$?
  if [ "$status" = "$wanted" ]; then status=0; else cat "$work/said"; status=1; fi
  tell "$status" "$what"
}

for of in show findings compare season fit card; do
  "$snell" export --schema "$of" >"$work/$of.schema"
  "$venv/bin/check-jsonschema" --check-metaschema "$work/$of.schema" >"$work/said" 2>&1 && status=0 || { status=$?; cat "$work/said"; }
  tell "$status" "the schema of $of is a schema"
done
"$snell" export examples "$work/faulty folder" >"$work/rigs.json" 2>/dev/null || true
schema show "$work/rigs.json" 0 "all rigs pass the schema of the program"
"$snell" show examples --units both --form json >"$work/both.json"
schema show "$work/both.json" 0 "rigs in both units pass it"
sed '0,/"unit": "m"/s//"unit": "ft"/' "$work/both.json" >"$work/wrong.json"
schema show "$work/wrong.json" 1 "a length that is not in metres does not"
"$snell" check --form json --skipped examples "$work/faulty folder" crates/snell/tests/data >"$work/found.json" || true
schema findings "$work/found.json" 0 "all findings pass the schema of the program"
sed '0,/"level": "fault"/s//"level": "mistake"/' "$work/found.json" >"$work/wrong.json"
schema findings "$work/wrong.json" 1 "a level that there is none of does not"
"$snell" compare examples/harrow.rig examples/season.rig --form json >"$work/compared.json" || true
schema compare "$work/compared.json" 0 "what changed passes it"
"$snell" fit examples/harrow.rig --depth "2 ft" --form json >"$work/fit.json" || true
schema fit "$work/fit.json" 0 "a fit passes it"
"$snell" card examples/harrow.rig:harrow-low --depths "2 ft" --form json >"$work/card.json" || true
schema card "$work/card.json" 0 "a card passes it"
git init -q "$work/history"
cp examples/*.rig "$work/history"
git -C "$work/history" add -A
git -C "$work/history" -c user.name=angler -c user.email=angler@valley.example commit -q -m "a season"
"$snell" season "$work/history" --form json >"$work/season.json"
schema season "$work/season.json" 0 "a season passes it"

exit "$failed"
