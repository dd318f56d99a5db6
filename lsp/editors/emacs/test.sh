#!/usr/bin/env bash
# Tries the mode in Emacs without a screen, and the server through eglot.
#
#     lsp/editors/emacs/test.sh PATH-OF-HAME
set -euo pipefail
here="$(cd "$(dirname "$0")" && pwd)"
hame="$(realpath "${1:?say where hame is}")"
dir="$(mktemp -d)"
trap 'rm -rf "$dir"' EXIT
ln -s "$hame" "$dir/hame"
cp "$here/../../../examples/faulty/wires.hame" "$dir/wires.hame"
HOME="$dir" PATH="$dir:$PATH" HAME_TEST_FILE="$dir/wires.hame" timeout --kill-after=5 120 \
    emacs --batch --no-init-file --load "$here/test.el" </dev/null
