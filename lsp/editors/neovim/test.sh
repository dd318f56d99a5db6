#!/usr/bin/env bash
# Drives `hame lsp` from Neovim without a screen: findings, hover, proposals,
# renaming, formatting, and a code action whose finding is then gone.
#
#     [NVIM=PATH-OF-NEOVIM] lsp/editors/neovim/test.sh PATH-OF-HAME
set -euo pipefail
here="$(cd "$(dirname "$0")" && pwd)"
hame="$(realpath "${1:?say where hame is}")"
dir="$(mktemp -d)"
trap 'rm -rf "$dir"' EXIT
cp "$here/../../../examples/faulty/wires.hame" "$dir/wires.hame"
cat >"$dir/run.lua" <<LUA
vim.g.hame_command = { "$hame", "lsp" }
dofile("$here/hame.lua")
local ok, err = pcall(dofile, "$here/test.lua")
if not ok then
  io.stderr:write(tostring(err) .. "\n")
  vim.cmd("cquit 1")
end
vim.cmd("qall!")
LUA

# Nothing of the user's own set-up takes part. A machine that hangs for minutes
# gets a second try; a test that fails does not.
run() {
    HAME_TEST_FILE="$dir/wires.hame" XDG_STATE_HOME="$dir" XDG_CACHE_HOME="$dir" XDG_DATA_HOME="$dir" \
        XDG_CONFIG_HOME="$dir" timeout --kill-after=5 90 "${NVIM:-nvim}" --headless --clean -u NONE -c "luafile $dir/run.lua" </dev/null
}
status=0
run || status=$?
if [ "$status" -eq 124 ] || [ "$status" -eq 137 ]; then
    echo "hung; once more"
    cp "$here/../../../examples/faulty/wires.hame" "$dir/wires.hame"
    status=0
    run || status=$?
fi
exit "$status"
