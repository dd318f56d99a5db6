-- Set-up for Neovim 0.7 and later. Copy this file to
-- ~/.config/nvim/plugin/hame.lua; `hame` must be on the PATH, or say where it
-- is: vim.g.hame_command = { "/opt/hame/hame", "lsp" }
-- Settings: vim.g.hame_settings = { inlayHints = { wires = false } }
vim.api.nvim_create_autocmd({ "BufRead", "BufNewFile" }, {
  pattern = "*.hame",
  callback = function()
    vim.bo.filetype = "hame"
  end,
})

-- One server serves all harnesses below one folder: that of the repository,
-- else the file's own.
local function root_of(file)
  local found = vim.fn.finddir(".git", vim.fn.fnamemodify(file, ":p:h") .. ";")
  if found ~= "" then
    return vim.fn.fnamemodify(found, ":p:h:h")
  end
  return vim.fn.fnamemodify(file, ":p:h")
end

local function config(root)
  return {
    name = "hame",
    cmd = vim.g.hame_command or { "hame", "lsp" },
    root_dir = root,
    init_options = vim.g.hame_settings,
    workspace_folders = { { uri = vim.uri_from_fname(root), name = root } },
  }
end

local clients = {}

-- Neovim 0.8 and later start and share servers themselves.
local function attach(buffer, root)
  if vim.lsp.start then
    vim.lsp.start(config(root), { bufnr = buffer })
    return
  end
  local wanted = config(root)
  wanted.on_exit = function()
    clients[root] = nil
  end
  clients[root] = clients[root] or vim.lsp.start_client(wanted)
  if clients[root] then
    vim.lsp.buf_attach_client(buffer, clients[root])
  end
end

vim.api.nvim_create_autocmd("FileType", {
  pattern = "hame",
  callback = function(args)
    local options = vim.bo[args.buf]
    options.commentstring = "# %s"
    options.shiftwidth = 4
    options.expandtab = true
    options.omnifunc = "v:lua.vim.lsp.omnifunc"
    attach(args.buf, root_of(vim.api.nvim_buf_get_name(args.buf)))
    if vim.lsp.inlay_hint then -- Neovim 0.10 and later
      vim.lsp.inlay_hint.enable(true, { bufnr = args.buf })
    end
  end,
})
