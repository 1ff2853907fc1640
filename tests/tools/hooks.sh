#!/usr/bin/env bash
# The hooks and the workflow that notebooks can take, run by the programs that
# they are for: the pre-commit framework, git, and the schema of workflows; and
# the question that is asked before git is set up, at a terminal.
#
#   tests/tools/hooks.sh target/release/snell
set -euo pipefail

# shellcheck source=tests/tools/needs.sh
. "$(dirname "$0")/needs.sh" "${1:-}" python3 git
top="$PWD"

python=(check-jsonschema==0.39.0 pre-commit==4.7.0)
venv="$tools/hooks-0.39.0-4.7.0"
if [ ! -f "$venv/complete" ]; then
  rm -rf "$venv"
  python3 -m venv "$venv"
  "$venv/bin/pip" install --quiet --disable-pip-version-check "${python[@]}"
  touch "$venv/complete"
fi
work="$(mktemp -d)"
trap 'rm -rf "$work"' EXIT

# None of its user's settings.
export PATH="$(dirname "$snell"):$venv/bin:$PATH" PRE_COMMIT_HOME="$work/framework" NO_COLOR=1
export HOME="$work" GIT_CONFIG_NOSYSTEM=1 GIT_CONFIG_GLOBAL=/dev/null
export GIT_AUTHOR_NAME=Angler GIT_AUTHOR_EMAIL=angler@valley.example
export GIT_COMMITTER_NAME=Angler GIT_COMMITTER_EMAIL=angler@valley.example

failed=0
# holds WHAT COMMAND…: the command must do well. fails WHAT COMMAND…: it must not. What it said is in $work/said.
holds() {
  local what="$1"
  shift
  if "$@" >"$work/said" 2>&1; then echo "holds: $what"; else echo "FAILS: $what"; cat "$work/said"; failed=1; fi
}
fails() {
  local what="$1"
  shift
  if "$@" >"$work/said" 2>&1; then echo "FAILS: $what"; cat "$work/said"; failed=1; else echo "holds: $what"; fi
}
said() {
  holds "… and says: $1" grep -F -q -- "$1" "$work/said.kept"
}
keep() {
  cp "$work/said" "$work/said.kept"
}

holds "the framework takes the list of hooks" pre-commit validate-manifest .pre-commit-hooks.yaml
holds "the workflows pass the schema of workflows" \
  check-jsonschema --builtin-schema vendor.github-workflows examples/check-rigs.yml .github/workflows/*.yml

hooks="$work/hooks"
git init -q -b main "$hooks"
cp .pre-commit-hooks.yaml "$hooks"
git -C "$hooks" add -A
git -C "$hooks" commit -q -m "hooks"

notebook="$work/notebook"
git init -q -b main "$notebook"
cd "$notebook"
printf 'repos:\n- repo: %s\n  rev: %s\n  hooks:\n  - id: snell-check\n  - id: snell-tidy\n' \
  "$hooks" "$(git -C "$hooks" rev-parse HEAD)" >.pre-commit-config.yaml
printf 'fly bracken\n  hook    #14\n  bead    2.8 mm tungsten\n' >flies.rig
printf 'use "flies.rig"\n\nrig low\n  tippet  4 ft  of 5X fluoro\n  point   bracken\n' >low.rig
holds "the framework is installed" pre-commit install
git add -A
holds "a sound notebook is committed" git commit -m "sound"

printf 'fly heather\n  hook    #14\n  bead    2.8 mm tungsten\n' >flies.rig
git add -A
fails "a fly that a rig of another file stands on is not renamed alone" git commit -m "another name"
keep
said "bracken"
git checkout -q HEAD -- flies.rig

printf 'rig untidy\ntippet 4 ft of 5X fluoro\npoint #14\n' >untidy.rig
git add -A
fails "what is not laid out stops once" git commit -m "untidy"
keep
said "laid out untidy.rig"
git add -A
holds "and is committed as it was laid out" git commit -m "tidied"

plain="$work/plain"
git init -q -b main "$plain"
cd "$plain"
cp "$top/examples/pre-commit.sh" .git/hooks/pre-commit
chmod +x .git/hooks/pre-commit
printf 'rig ill\n  tippet  4     of 5X fluoro\n  point   #14\n' >ill.rig
git add -A
fails "the plain hook stops a commit that is ill" git commit -m "ill"
keep
said '`4` has no unit'
printf 'rig ill\n  tippet  4 ft  of 5X fluoro\n  point   #14\n' >ill.rig
git add -A
holds "and lets one pass that is sound" git commit -m "sound"

# The question of `snell start`, at a terminal: only a yes changes anything.
cat >"$work/ask.py" <<'PY'
import os, pty, sys

answer, words = sys.argv[1].encode() + b"\n", sys.argv[2:]
child, terminal = pty.fork()
if child == 0:
    os.execvp(words[0], words)
said, asked = b"", False
while True:
    try:
        more = os.read(terminal, 4096)
    except OSError:
        break
    if not more:
        break
    said += more
    if b"[y/N]" in said and not asked:
        asked = True
        os.write(terminal, answer)
sys.stdout.write(said.decode())
sys.exit(os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) or (0 if asked else 9))
PY
for answer in "" n y; do
  git init -q -b main "$work/asked-$answer"
  cd "$work/asked-$answer"
  holds "start asks, and is told '$answer'" python3 "$work/ask.py" "$answer" snell start
  if [ "$answer" = y ]; then
    holds "… and sets git up" git config --local diff.rig.command
    holds "… with its line" grep -q 'rig diff=rig' .gitattributes
  else
    fails "… and leaves the settings" git config --local diff.rig.command
    fails "… and the attributes" test -e .gitattributes
  fi
done

exit "$failed"
