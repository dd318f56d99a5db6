-- Drives the real server from a real Neovim, headless, over a copy of a faulty
-- example. Started by test.sh, which names the copy.
local file = assert(os.getenv("HAME_TEST_FILE"))
local patience = 20000 -- ms, for a machine that has much to do

local function say(what)
  io.stdout:write("ok  " .. what .. "\n")
end

local function eventually(what, ready)
  if not vim.wait(patience, ready, 20) then
    error("waited in vain for this: " .. what .. "\n" .. vim.inspect(vim.diagnostic.get(0)))
  end
  say(what)
end

local function clients()
  return (vim.lsp.get_clients or vim.lsp.get_active_clients)()
end

local function client()
  return clients()[1]
end

-- found is the first finding of a rule, nil where there is none.
local function found(rule)
  for _, d in ipairs(vim.diagnostic.get(0)) do
    local code = d.code or (d.user_data and d.user_data.lsp and d.user_data.lsp.code)
    if code == rule then
      return d
    end
  end
end

local function lines()
  return vim.api.nvim_buf_get_lines(0, 0, -1, false)
end

-- seek is the line that a pattern first matches, and the column, from 0.
local function seek(pattern)
  for row, line in ipairs(lines()) do
    local column = line:find(pattern)
    if column then
      return row - 1, column - 1
    end
  end
  error("no line matches " .. pattern)
end

local function go(row, column)
  vim.api.nvim_win_set_cursor(0, { row + 1, column })
end

-- ask waits for the server's answer to a question about a place, and asks again
-- where the text has changed under it.
local function ask(method, row, column)
  local params = { textDocument = vim.lsp.util.make_text_document_params(0), position = { line = row, character = column } }
  local last
  for _ = 1, 5 do
    local answers, err = vim.lsp.buf_request_sync(0, method, params, patience)
    assert(answers, method .. ": " .. tostring(err))
    local _, answer = next(answers)
    if answer and answer.result then
      return answer.result
    end
    last = answer
    vim.wait(200)
  end
  error(method .. ": " .. vim.inspect(last))
end

local function labels(proposals)
  local set = {}
  for _, item in ipairs(proposals.items or proposals) do
    set[item.label] = true
  end
  return set
end

-- formatted formats as the user would; the call has changed its name.
local function formatted()
  if vim.lsp.buf.format then
    vim.lsp.buf.format({ timeout_ms = patience })
  else
    vim.lsp.buf.formatting_sync(nil, patience)
  end
end

vim.cmd("edit " .. vim.fn.fnameescape(file))
assert(vim.bo.filetype == "hame", "the file's type is " .. vim.bo.filetype)
eventually("the server is there", function()
  return client() ~= nil and client().initialized
end)
eventually("what is wrong with the example is found", function()
  return found("wire/thin") and found("wire/insulation") and found("wire/colour")
end)
assert(found("wire/insulation").severity == vim.diagnostic.severity.ERROR)
assert(lines()[found("wire/thin").lnum + 1]:find("want wire/thin"), "it stands on the line that says so")

local hover = ask("textDocument/hover", seek("w9%s"))
assert(hover.contents.value:find("ampacity"), vim.inspect(hover))
say("hover over a wire tells of its ampacity")

local row, column = seek("; resistance")
local inside = labels(ask("textDocument/completion", row, column + 2))
assert(inside["chemistry"] and not inside["capacity"], vim.inspect(inside))
say("settings that are not given yet are proposed in a block")

vim.api.nvim_buf_set_lines(0, -1, -1, false, { "wire w99 f1." })
local terminals = labels(ask("textDocument/completion", #lines() - 1, #"wire w99 f1."))
assert(terminals["f1.in"] and terminals["f1.out"], vim.inspect(terminals))
say("the terminals of a device are proposed")
vim.api.nvim_buf_set_lines(0, -2, -1, false, {})

row, column = seek("lamp%s+{")
go(row, column)
vim.lsp.buf.rename("work_lamp")
eventually("a name is changed wherever it stands", function()
  local text = table.concat(lines(), "\n")
  return text:find("led work_lamp") and text:find("work_lamp%.pos") and text:find("work_lamp%.neg") and text:find("require work_lamp")
end)

row = seek("^wire w10")
vim.api.nvim_buf_set_lines(0, row, row + 1, false, { "wire   w10 dial.neg->neg   1mm2 black" })
formatted()
assert(lines()[row + 1]:gsub("%s+", " ") == "wire w10 dial.neg -> neg 1 mm2 black", lines()[row + 1])
assert(lines()[row + 1]:find("->") == lines()[row]:find("->"), "the arrows stand below each other")
say("the text is formatted")

eventually("the thin wire is still found", function()
  return found("wire/thin")
end)
-- Of the actions that are offered, take the one that mends.
vim.ui.select = function(items, _, choose)
  for i, item in ipairs(items) do
    local action = item.action or item[2]
    if action.isPreferred then
      return choose(item, i)
    end
  end
  error("no action is preferred: " .. vim.inspect(items))
end
local thin = found("wire/thin")
go(thin.lnum, thin.col)
vim.lsp.buf.code_action()
eventually("its finding is gone once it is mended", function()
  return not found("wire/thin") and lines()[thin.lnum + 1]:find("0%.75 mm2")
end)
assert(found("wire/insulation"), "the others are still there")

local process = client()
process.stop()
eventually("the server ends", function()
  return process.is_stopped()
end)
