#!/usr/bin/env bash
# Tries the packed extension in VS Code's own window, in Chromium without a screen.
#
#     lsp/editors/vscode/browser.sh [PATH-OF-HAME]
#
# Without a path, hame is built. VS Code comes as the npm package code-server: the
# one that CODE_SERVER names or that is on the PATH, or else it is fetched once
# (0.3 GB, two minutes) into the folder that HAME_CODE_SERVER names, in the version
# CODE_SERVER_VERSION. Pictures are left in the folder that HAME_PICTURES names.
# CHROMIUM may say where that is.
set -euo pipefail
cd "$(dirname "$0")"
version="${CODE_SERVER_VERSION:-4.100.3}"
store="${HAME_CODE_SERVER:-${XDG_CACHE_HOME:-$HOME/.cache}/hame/code-server-$version}"
pictures="$(realpath -m "${HAME_PICTURES:-${TMPDIR:-/tmp}/hame-pictures}")"
work="$(mktemp -d)"
served=
trap '[ -z "$served" ] || kill "$served" 2>/dev/null || true; wait; rm -rf "$work"' EXIT

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

# stored installs code-server without its own last step, which fetches and builds
# far more than is wanted here: what logs, guards and hashes is built, and neither
# terminals, nor the search in files, nor Kerberos.
stored() {
    if [ "$(node --version | tr -dc '0-9.' | cut -d. -f1)" -ne 20 ]; then
        echo "code-server $version wants Node 20, and this is $(node --version): name another by CODE_SERVER"
        exit 1
    fi
    [ -e "$store/ready" ] && return
    need g++ g++
    need make make
    need python3 python3
    local headers quiet=(--no-audit --no-fund --loglevel error)
    headers="$(dirname "$(dirname "$(realpath "$(command -v node)")")")"
    if [ -e "$headers/include/node/node.h" ]; then
        export npm_config_nodedir="$headers"
    fi
    mkdir -p "$store"
    (
        # Its lock leaves out a package, so that is added; a beta does not count as
        # the version that it comes before.
        cd "$store" &&
            npm install --prefix . --ignore-scripts "${quiet[@]}" "code-server@$version" &&
            npm rebuild argon2 "${quiet[@]}" &&
            cd node_modules/code-server/lib/vscode &&
            npm install --ignore-scripts --omit=dev --legacy-peer-deps "${quiet[@]}" &&
            npm rebuild @vscode/spdlog native-watchdog "${quiet[@]}"
    ) >"$work/fetched" 2>&1 || { cat "$work/fetched"; exit 1; }
    touch "$store/ready"
}

# code starts VS Code's server with a home of its own. There is no shop to ask for
# extensions.
code() {
    HOME="$work/home" EXTENSIONS_GALLERY='{"serviceUrl":"","itemUrl":"","resourceUrlTemplate":""}' \
        exec "${server[@]}" --config "$work/config.yaml" --user-data-dir "$work/data" --extensions-dir "$work/extensions" "$@"
}

hame="${1:-}"
if [ -z "$hame" ]; then
    hame="$work/real"
    go build -C ../../.. -o "$hame" ./cmd/hame
fi
hame="$(realpath "$hame")"

need npm nodejs npm
[ -n "${CHROMIUM:-}" ] || need chromium chromium
say "the extension"
fetched . >/dev/null
npm run --silent pack >"$work/pack" 2>&1 || { cat "$work/pack"; exit 1; }
fetched browser >/dev/null

if [ -n "${CODE_SERVER:-}" ] || command -v code-server >/dev/null; then
    server=("${CODE_SERVER:-code-server}")
else
    say "code-server $version in $store"
    stored
    server=(node "$store/node_modules/code-server/out/node/entry.js")
fi

mkdir -p "$work/home" "$work/harness" "$work/data/Machine" "$pictures"
rm -f "$pictures"/[0-9][0-9]-*.png
cp ../../../examples/faulty/wires.hame "$work/harness/"
printf 'auth: none\n' >"$work/config.yaml"
printf '#!/bin/sh\necho started >>"%s"\nexec "%s" "$@"\n' "$work/starts" "$hame" >"$work/hame"
chmod +x "$work/hame"
printf '{ "hame.path": "%s" }\n' "$work/hame" >"$work/data/Machine/settings.json"

say "VS Code $(code --version)"
(code --install-extension "$PWD/hame.vsix")
: >"$work/log"
(code --auth none --bind-addr 127.0.0.1:0 --disable-telemetry --disable-update-check --disable-workspace-trust --disable-proxy) >"$work/log" 2>&1 &
served=$!
for _ in $(seq 300); do
    url="$(grep -o -m1 'http://127\.0\.0\.1:[0-9]*' "$work/log" || true)"
    [ -n "$url" ] && break
    sleep 0.1
done
[ -n "$url" ] || { cat "$work/log"; exit 1; }
node browser/drive.mjs "$url" "$work/harness" "$work/starts" "$pictures" || { cat "$work/log"; exit 1; }
say "pictures are in $pictures"
