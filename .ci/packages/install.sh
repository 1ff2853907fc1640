#!/bin/sh
# Installs snell for the person who runs it, on Linux and macOS:
#
#   sh install.sh [FOLDER]        into FOLDER/bin, which is ~/.local/bin where none is named
#
# It fetches the archive for this system and the list of sums from the release that it came with, compares the sum, and only
# then unpacks. FROM names another place: an address, or a folder with both files in it. Nothing but FOLDER is changed.
set -eu

from="${FROM:-@FROM@}"
version="@VERSION@"
folder="${1:-$HOME/.local}"

fail() {
  echo "install.sh: $*" >&2
  exit 1
}

case "$from" in
@*) fail "this copy belongs to no release; say where the archives are: FROM=FOLDER sh install.sh" ;;
esac

case "$(uname -s)" in
Linux) system=linux ;;
Darwin) system=macos ;;
*) fail "there is no archive for $(uname -s); on Windows, install.ps1 is what you want" ;;
esac
case "$(uname -m)" in
x86_64 | amd64) machine=x64 ;;
aarch64 | arm64) machine=arm64 ;;
*) fail "there is no archive for $(uname -m); it can be built with Rust: see the README" ;;
esac
name="snell-$version-$system-$machine"
archive="$name.tar.gz"

work="$(mktemp -d)"
trap 'rm -rf "$work"' EXIT
# Not every shell counts being ended as an exit.
trap 'exit 1' HUP INT TERM
fetch() {
  case "$from" in
  http://*) fail "$from is an address that anybody on the way can change; say it with https" ;;
  https://*)
    if command -v curl >/dev/null; then
      curl --proto '=https' --proto-redir '=https' --tlsv1.2 -fsSL "$from/$1" -o "$work/$1"
    elif wget --https-only --version >/dev/null 2>&1; then
      wget -q --https-only "$from/$1" -O "$work/$1"
    else
      fail "there is no curl here, nor a wget that keeps to https, to fetch $from/$1"
    fi
    ;;
  *) cp "$from/$1" "$work/$1" ;;
  esac || fail "$from/$1 could not be fetched"
}

echo "fetching $archive from $from" >&2
fetch SHA256SUMS
fetch "$archive"

wanted="$(sed -n "s/^\([0-9a-f]\{64\}\) [ *]$archive\$/\1/p" "$work/SHA256SUMS")"
[ -n "$wanted" ] || fail "SHA256SUMS says nothing of $archive"
if command -v sha256sum >/dev/null; then
  sum="$(sha256sum "$work/$archive")"
else
  sum="$(shasum -a 256 "$work/$archive")"
fi
[ "${sum%% *}" = "$wanted" ] || fail "the sum of $archive is not the one in SHA256SUMS: nothing was installed"

tar -xzf "$work/$archive" -C "$work"
mkdir -p "$folder/bin"
# Put in its place whole, also where one runs.
cp "$work/$name/snell" "$folder/bin/.snell.new"
chmod 755 "$folder/bin/.snell.new"
mv -f "$folder/bin/.snell.new" "$folder/bin/snell"
"$folder/bin/snell" --version >&2

case ":$PATH:" in
*":$folder/bin:"*) echo "installed in $folder/bin; try: snell start" >&2 ;;
*) echo "installed in $folder/bin, which is not on your PATH: put it there, or call $folder/bin/snell" >&2 ;;
esac
