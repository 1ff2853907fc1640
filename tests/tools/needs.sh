# What the checks by other programs share. Sourced as
#
#   . "$(dirname "$0")/needs.sh" SNELL TOOL…
#
# It leaves `snell`, the program that is checked, and `tools`, a folder outside
# of the project in which what they need is installed once, and goes to the
# project's top. Where a TOOL is missing the check is passed over, but not where
# CI is true.
# shellcheck shell=bash disable=SC2034

check="$(basename "$0" .sh)"
[ -x "${1:-}" ] || { echo "usage: $check.sh SNELL, which is a program" >&2; exit 2; }
snell="$(cd "$(dirname "$1")" && pwd)/$(basename "$1")"
cd "$(dirname "$0")/../.."
shift
for tool in "$@"; do
  if ! command -v "$tool" >/dev/null; then
    echo "skipped: no $tool"
    [ "${CI:-}" = true ] && exit 1
    exit 0
  fi
done
tools="${TOOLS:-$HOME/.cache/snell-tools}"
mkdir -p "$tools"
