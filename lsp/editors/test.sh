#!/usr/bin/env bash
# Tries what editors install, against the real server.
#
#     lsp/editors/test.sh [PATH-OF-HAME]
#
# Without a path, hame is built. What is missing is installed from Debian's
# packages. With HAME_EDITORS=all, Emacs is tried too.
set -euo pipefail
cd "$(dirname "$0")"
work="$(mktemp -d)"
trap 'rm -rf "$work"' EXIT

say() { printf -- '-- %s\n' "$*"; }

# need COMMAND PACKAGE… installs packages where a command is not there.
need() {
    local command="$1"
    shift
    if ! command -v "$command" >/dev/null; then
        apt-get update -qq
        DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "$@" >/dev/null
    fi
}

# Packages come over a network, which may stumble once.
fetched() { npm ci --prefix "$1" --no-audit --no-fund --loglevel error || npm ci --prefix "$1" --no-audit --no-fund --loglevel error; }

hame="${1:-}"
if [ -z "$hame" ]; then
    hame="$work/hame"
    go build -C ../.. -o "$hame" ./cmd/hame
fi
hame="$(realpath "$hame")"

say "the lexer for pages"
(cd test/chroma && go vet ./... && go test ./...)

need nvim neovim
say "$(nvim --version | sed -n 1p)"
neovim/test.sh "$hame"

need npm nodejs npm
if [ "$(node --version | tr -dc '0-9.' | cut -d. -f1)" -lt 20 ]; then
    echo "Node 20 or later is needed, and this is $(node --version)"
    exit 1
fi
say "the extension for VS Code"
fetched vscode >/dev/null
npm run --prefix vscode --silent pack >"$work/pack" 2>&1 || { cat "$work/pack"; exit 1; }

say "the grammar, a typed client, the set-ups, the packed extension"
fetched test >/dev/null
HAME="$hame" npm test --prefix test --silent >"$work/node" 2>&1 || { cat "$work/node"; exit 1; }
grep '^# \(tests\|pass\|fail\|skipped\)' "$work/node"

if [ "${HAME_EDITORS:-}" = all ]; then
    need emacs emacs-nox
    # From 29 on, eglot is a part of Emacs.
    if ! emacs --batch --eval "(require 'eglot)" >/dev/null 2>&1; then
        DEBIAN_FRONTEND=noninteractive apt-get install -y -qq elpa-eglot >/dev/null
    fi
    say "$(emacs --version | sed -n 1p)"
    emacs/test.sh "$hame"
fi
say "done"
