-- Neovim 0.7 does not know vim.lsp.start yet, and asks for its own file types to be switched on.
local client
local start = vim.lsp.start or function(config)
  local id = vim.lsp.start_client(config)
  vim.lsp.buf_attach_client(0, id)
  return id
end
vim.lsp.start = function(config)
  client = start(config)
  return client
end
vim.g.do_filetype_lua = 1
vim.cmd('filetype on')
dofile(vim.env.POISE_LINES)
vim.cmd('edit ' .. vim.env.POISE_FILE)

local seen = {}
vim.wait(20000, function() return #vim.diagnostic.get(0) > 0 end, 20)
seen.findings = vim.tbl_map(function(it)
  return { line = it.lnum, severity = it.severity, message = it.message }
end, vim.diagnostic.get(0))

local answers = vim.lsp.buf_request_sync(0, 'textDocument/hover', {
  textDocument = vim.lsp.util.make_text_document_params(),
  position = { line = 1, character = 10 },
}, 20000)
local answer = answers and answers[client] and answers[client].result
seen.hover = answer and answer.contents.value or ''

local row = vim.fn.getline(3)
local from = row:find('42.5', 1, true)
vim.api.nvim_buf_set_text(0, 2, from - 1, 2, from + 3, { '39.5' })
seen.cleared = vim.wait(20000, function() return #vim.diagnostic.get(0) == 0 end, 20)

io.stdout:write(vim.fn.json_encode(seen), '\n')
vim.lsp.stop_client(client)
vim.cmd('qa!')
