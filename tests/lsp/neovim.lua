-- Attaches Neovim's own client to the built server and goes through what a person would do. Run as
--   PLANISH_SERVER=server.cjs PLANISH_FILE=gate.planish nvim --headless -u NONE -i NONE -n -S neovim.lua
-- Writes one line per step and PASS at the end; leaves with code 1 at the first step that fails.
local server, file = vim.env.PLANISH_SERVER, vim.env.PLANISH_FILE
local function say(text) io.stdout:write(text .. '\n') end
local function fail(text)
  say('FAIL ' .. text)
  vim.cmd('cquit 1')
end
local function wait_for(what, done)
  if not vim.wait(10000, done, 20) then fail('waited in vain for ' .. what) end
end

vim.cmd('edit ' .. vim.fn.fnameescape(file))
local buffer = vim.api.nvim_get_current_buf()
local client_id = vim.lsp.start_client({
  name = 'planish',
  cmd = { 'node', server, '--stdio' },
  root_dir = vim.fn.fnamemodify(file, ':p:h'),
  get_language_id = function() return 'planish' end,
})
if not client_id then fail('the server did not start') end
vim.lsp.buf_attach_client(buffer, client_id)
wait_for('the handshake', function()
  local client = vim.lsp.get_client_by_id(client_id)
  return client and client.initialized
end)
local client = vim.lsp.get_client_by_id(client_id)
say('encoding ' .. client.offset_encoding)

local function errors()
  return vim.diagnostic.get(buffer, { severity = vim.diagnostic.severity.ERROR })
end
wait_for('the first finding', function() return #errors() == 1 end)
local first = errors()[1]
say(string.format('error line %d words %d-%d %s', first.lnum, first.col, first.end_col, first.source))

local function ask(method, params)
  local answers = vim.lsp.buf_request_sync(buffer, method, params, 5000)
  local answer = answers and answers[client_id]
  if not answer then fail(method .. ' was not answered') end
  if answer.err then fail(method .. ': ' .. vim.inspect(answer.err)) end
  return answer.result
end
local function at(line, column)
  vim.api.nvim_win_set_cursor(0, { line + 1, column })
  return vim.lsp.util.make_position_params(0, client.offset_encoding)
end

-- The cure offered at the finding.
local range_params = at(first.lnum, first.col)
local actions = ask('textDocument/codeAction', {
  textDocument = range_params.textDocument,
  range = { start = range_params.position, ['end'] = range_params.position },
  context = { diagnostics = {} },
})
local cure
for _, action in ipairs(actions) do if action.edit and not cure then cure = action end end
if not cure then fail('no cure was offered') end
vim.lsp.util.apply_workspace_edit(cure.edit, client.offset_encoding)
wait_for('the finding to go', function() return #errors() == 0 end)
say('cured ' .. vim.trim(vim.api.nvim_buf_get_lines(buffer, first.lnum, first.lnum + 1, false)[1]))

local hover = ask('textDocument/hover', at(2, 7))
say('hover ' .. vim.trim(hover.contents.value:match('blank[^\n]*') or 'nothing'))

local completion = ask('textDocument/completion', at(3, 8))
local labels = {}
for _, item in ipairs(completion.items) do labels[item.label] = true end
if not labels['crs_18'] then fail('the sheet was not offered') end
say('completion crs_18')

local definition = ask('textDocument/definition', at(3, 9))
local target = definition[1].uri or definition[1].targetUri
say('definition ' .. target:match('[^/]+$'))

local edits = ask('textDocument/formatting', { textDocument = range_params.textDocument, options = { tabSize = 2, insertSpaces = true } })
vim.lsp.util.apply_text_edits(edits, buffer, client.offset_encoding)
say('formatted ' .. vim.api.nvim_buf_get_lines(buffer, 4, 5, false)[1])

client.stop()
if not vim.wait(5000, function() return client.is_stopped() end, 20) then fail('the server did not stop') end
say('PASS')
vim.cmd('qall!')
