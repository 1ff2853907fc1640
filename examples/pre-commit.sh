#!/bin/sh
# A git hook: refuses a commit whose rigs do not hold together, and says why.
# Copy it to .git/hooks/pre-commit and make it executable.
#
# What is checked is what would be committed, not what lies in the working tree.
set -eu

staged=$(mktemp -d)
trap 'rm -rf "$staged"' EXIT
git ls-files -z -- '*.rig' '*.md' '*.markdown' | git checkout-index -z --stdin --prefix="$staged/"

# The hook's own settings point git at the real repository, which the copy is none of.
unset GIT_DIR GIT_INDEX_FILE GIT_WORK_TREE
# `use` looks no further than the folder that holds .git.
mkdir "$staged/.git"
cd "$staged"
snell check .
