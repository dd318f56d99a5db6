#!/usr/bin/env bash
# Drives `hame lsp` from Neovim without a screen: findings, hover, proposals,
# renaming, formatting, and a code action whose finding is then gone.
#
#     lsp/editors/neovim/test.sh PATH-OF-HAME
set -euo pipefail
here="$(cd "$(dirname "$0")" && pwd)"
hame="$(realpath "${1:?say where hame is}")"
dir="$(mktemp -d)"
trap 'rm -rf "$dir"' EXIT
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
HAME_TEST_DIR="$dir" XDG_STATE_HOME="$dir" XDG_CACHE_HOME="$dir" XDG_DATA_HOME="$dir" XDG_CONFIG_HOME="$dir" \
    timeout 120 nvim --headless --clean -u NONE -c "luafile $dir/run.lua"
