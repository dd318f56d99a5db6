#!/usr/bin/env bash
# Validates the HTML of every example's pages.
#
#     check/page/browser/test.sh [PATH-OF-HAME]
#
# With HAME_BROWSER=1 each page is opened in Chromium too, and pictures of it are
# left in the folder that HAME_PICTURES names.
set -euo pipefail
cd "$(dirname "$0")"
root="$(cd ../../.. && pwd)"
work="$(mktemp -d)"
trap 'rm -rf "$work"' EXIT

hame="${1:-}"
if [ -z "$hame" ]; then
    hame="$work/hame"
    go build -C "$root" -o "$hame" ./cmd/hame
fi
hame="$(realpath "$hame")"

# Packages come over a network, which may stumble once.
npm ci --no-audit --no-fund --loglevel error >/dev/null || npm ci --no-audit --no-fund --loglevel error >/dev/null

pages=()
for dir in "$root"/examples/*/; do
    name="$(basename "$dir")"
    [ -f "$dir/harness.hame" ] || continue
    (cd "$root" && "$hame" sheet all --date 2027-05-31 --format html "examples/$name" 2>/dev/null) >"$work/$name.html"
    (cd "$root" && "$hame" sheet all --date 2027-05-31 --format html -o "$work/$name" "examples/$name" >/dev/null 2>&1)
    pages+=("$work/$name.html" "$work/$name"/*.html)
done
node validate.mjs "${pages[@]}"

if [ -n "${HAME_BROWSER:-}" ]; then
    command -v chromium >/dev/null || DEBIAN_FRONTEND=noninteractive apt-get install -y -qq chromium >/dev/null
    pictures="${HAME_PICTURES:-$work/pictures}"
    for page in "$work"/*.html; do
        folder="$pictures/$(basename "$page" .html)"
        mkdir -p "$folder"
        node look.mjs "$page" "$folder"
    done
fi
