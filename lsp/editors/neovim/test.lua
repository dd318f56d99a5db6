-- Drives the real server from a real Neovim, headless. Started by test.sh.
local dir = assert(os.getenv("HAME_TEST_DIR"))
local patience = 15000

local text = [[
harness pump { system 12 V; practice land; wire gxl }
zone bay { ambient 0..40 degC }
place box in bay
supply battery main { at box; capacity 70 Ah; cranking 600 A; post M8; covered }
protection fuse f1 { at box; rating 15 A }
load motor p1 { at box; draws 7 A at 12 V; drives pump; least 9 V; meant always }
wire w1 main.pos -> f1.in 2.5 mm2 red 0.1 m
wire w2   f1.out -> p1.pos 0.5 mm2 red 1 m
wire w3 p1.neg -> main.neg 2.5 mm2 black 1 m
]]

local function say(what)
  io.stdout:write("ok  " .. what .. "\n")
end

local function eventually(what, ready)
  if not vim.wait(patience, ready, 20) then
    error("waited in vain for " .. what)
  end
  say(what)
end

local file = dir .. "/pump.hame"
local out = assert(io.open(file, "w"))
out:write(text)
out:close()
vim.cmd("edit " .. vim.fn.fnameescape(file))
assert(vim.bo.filetype == "hame", "the file's type is " .. vim.bo.filetype)

local function found(code)
  return function()
    for _, d in ipairs(vim.diagnostic.get(0)) do
      local is = d.code or (d.user_data and d.user_data.lsp and d.user_data.lsp.code)
      if is == code then
        return d
      end
    end
  end
end

local function lines()
  return vim.api.nvim_buf_get_lines(0, 0, -1, false)
end

local function at(line, column)
  return { textDocument = vim.lsp.util.make_text_document_params(0), position = { line = line, character = column } }
end

-- ask waits for the answer of the one server.
local function ask(method, params)
  local answers, err = vim.lsp.buf_request_sync(0, method, params, patience)
  assert(answers, method .. ": " .. tostring(err))
  local _, answer = next(answers)
  assert(answer and not answer.err, method .. ": " .. vim.inspect(answer))
  return answer.result
end

local function client()
  local _, c = next(vim.lsp.get_active_clients())
  return c
end

eventually("the server is there", function()
  return client() ~= nil and client().initialized
end)
eventually("a thin wire is found", found("wire/undersized"))

local hover = ask("textDocument/hover", at(7, 6))
assert(hover.contents.value:find("ampacity"), vim.inspect(hover))
say("hover tells of the ampacity")

vim.api.nvim_buf_set_lines(0, -1, -1, false, { "wire w4 f1." })
local proposals = ask("textDocument/completion", at(9, 11))
local labels = {}
for _, item in ipairs(proposals.items or proposals) do
  labels[item.label] = true
end
assert(labels["f1.in"] and labels["f1.out"], vim.inspect(labels))
say("the terminals of a device are proposed")
vim.api.nvim_buf_set_lines(0, -2, -1, false, {})

local params = at(4, 16)
params.newName = "main_fuse"
vim.lsp.util.apply_workspace_edit(ask("textDocument/rename", params), client().offset_encoding)
assert(lines()[5]:find("main_fuse") and lines()[7]:find("main_fuse%.in"), vim.inspect(lines()))
say("a name is changed wherever it stands")

local edits = ask("textDocument/formatting", { textDocument = at(0, 0).textDocument, options = { tabSize = 4, insertSpaces = true } })
vim.lsp.util.apply_text_edits(edits, vim.api.nvim_get_current_buf(), client().offset_encoding)
assert(not lines()[8]:find("w2   main"), lines()[8])
say("the text is formatted: " .. lines()[8])

eventually("the thin wire is still found", found("wire/undersized"))
params = at(7, 5)
local range = { start = params.position, ["end"] = params.position }
local actions = ask("textDocument/codeAction", { textDocument = params.textDocument, range = range, context = { diagnostics = {} } })
local mended = false
for _, action in ipairs(actions) do
  if not mended and action.isPreferred and action.diagnostics[1].code == "wire/undersized" then
    vim.lsp.util.apply_workspace_edit(action.edit, client().offset_encoding)
    mended = true
  end
end
assert(mended, vim.inspect(actions))
eventually("the finding is gone once it is mended", function()
  return not found("wire/undersized")()
end)
local process = client()
process.stop()
eventually("the server ends", function()
  return process.is_stopped()
end)
