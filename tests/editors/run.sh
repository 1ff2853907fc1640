#!/usr/bin/env bash
# Real editors, set up as `editors/` says, against the program: they open a
# notebook and a page with an emoji before a finding, and what is shown must be
# right.
#
#   tests/editors/run.sh SNELL [neovim|emacs|vim|kate|sublime|vscode]…
#
# What an editor needs is installed by `install.sh` beside this file. Each one
# is ended after a time, and any that fails makes the whole fail. So does one
# that cannot be installed, but where MAY_LACK names it: MAY_LACK="vscode emacs".
set -euo pipefail

[ $# -ge 1 ] || { echo "usage: run.sh SNELL [neovim|emacs|vim|kate|sublime|vscode]…" >&2; exit 2; }
snell="$(cd "$(dirname "$1")" && pwd)/$(basename "$1")"
[ -x "$snell" ] || { echo "editors: $1 is no program" >&2; exit 2; }
shift
[ $# -gt 0 ] || set -- neovim emacs vim kate sublime vscode
for editor in "$@"; do
  case "$editor" in
  neovim | emacs | vim | kate | sublime | vscode) ;;
  *) echo "editors: no test for $editor" >&2; exit 2 ;;
  esac
done

cd "$(dirname "$0")/../.."
here=tests/editors
project="$PWD"
tools="${TOOLS:-$HOME/.cache/snell-tools}"
work="$(mktemp -d)"
trap 'rm -rf "$work"' EXIT
# shellcheck source=tests/editors/install.sh
. "$here/install.sh"

# The program as an editor finds it: by its name, on the path.
mkdir -p "$work/bin"
ln -s "$snell" "$work/bin/snell"
export PATH="$work/bin:$PATH"

# A copy of the notebook that an editor may change, in a folder under version control.
water() {
  local copy="$work/$1"
  mkdir -p "$copy/.git"
  cp "$here"/water/* "$copy"
  echo "$copy"
}

try_neovim() {
  local grammar=grammar/tree-sitter-rig parser="$work/rig.so"
  cc -shared -fPIC -O1 -I "$grammar/src" -o "$parser" "$grammar/src/parser.c" "$grammar/src/scanner.c"
  XDG_STATE_HOME="$work/state" timeout -k 5 240 \
    "$(neovim)" --clean --headless -l "$here/neovim.lua" "$project" "$(water neovim)" "$parser"
}

try_emacs() {
  timeout -k 5 240 emacs --batch -l "$project/$here/emacs.el" "$project" "$(water emacs)" </dev/null 2>"$work/emacs.log" || {
    cat "$work/emacs.log"
    return 1
  }
}

try_vim() {
  local told="$work/vim.told"
  PROJECT="$project" WATER="$(water vim)" TOLD="$told" timeout -k 5 150 \
    vim -N -u "$here/vim.vim" -i NONE --not-a-term </dev/null >/dev/null 2>&1 || true
  [ -s "$told" ] || { echo "vim: it ended without a word" >&2; return 1; }
  cat "$told"
  ! grep -v '^holds: ' "$told" >/dev/null
}

# The highlighter of Kate, without its windows.
try_kate() {
  local syntax="$work/kate/org.kde.syntax-highlighting/syntax"
  mkdir -p "$syntax"
  cp editors/kate/rig.xml "$syntax"
  XDG_DATA_HOME="$work/kate" "$here/colours.py" "$(water kate)" "$(kate_highlighter)" -s Rig -f ansi
}

# Sublime Text itself is not to be had freely; bat reads the same files of syntax.
try_sublime() {
  mkdir -p "$work/bat/syntaxes"
  cp editors/sublime-text/rig.sublime-syntax "$work/bat/syntaxes"
  export BAT_CONFIG_DIR="$work/bat" XDG_CACHE_HOME="$work/bat-cache"
  "$(bat_program)" cache --build >"$work/bat.log" || {
    cat "$work/bat.log" >&2
    return 1
  }
  "$here/colours.py" "$(water sublime)" "$(bat_program)" --color=always --plain --language=Rig --theme="Monokai Extended"
}

try_vscode() {
  "$here/vscode/run.sh" "$snell" "$(browser)" "$(water vscode)" "$work/vscode-told"
}

# In a condition bash would not stop at what fails, so a state is taken by itself: state COMMAND…
state() {
  set +e
  (set -e; "$@")
  status=$?
  set -e
}

failed=() left_out=()
for editor in "$@"; do
  echo "-- $editor"
  started=$SECONDS
  state "install_$editor" >"$work/install.log" 2>&1
  if [ "$status" != 0 ]; then
    tail -n 30 "$work/install.log" >&2
    if [[ " ${MAY_LACK:-} " == *" $editor "* ]]; then
      left_out+=("$editor")
    else
      failed+=("$editor (was not installed; to go on without it: MAY_LACK=$editor)")
    fi
    continue
  fi
  echo "installed in $((SECONDS - started)) s"

  started=$SECONDS
  state "try_$editor"
  if [ "$status" = 0 ]; then
    echo "passed in $((SECONDS - started)) s"
  else
    echo "failed after $((SECONDS - started)) s" >&2
    failed+=("$editor")
  fi
done

if [ ${#left_out[@]} -gt 0 ]; then
  echo "editors that were NOT run, as MAY_LACK allows: ${left_out[*]}" >&2
fi
if [ ${#failed[@]} -gt 0 ]; then
  echo "editors that failed:" >&2
  printf '  %s\n' "${failed[@]}" >&2
  exit 1
fi
