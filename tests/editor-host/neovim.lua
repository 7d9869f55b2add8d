-- Neovim 0.7 knows neither vim.lsp.start nor vim.lsp.config yet.
vim.cmd('edit ' .. vim.env.POISE_FILE)
local client = vim.lsp.start_client({
  name = 'poise',
  cmd = { vim.env.POISE_NODE, vim.env.POISE_COMMAND, 'lsp', '--stdio' },
  root_dir = vim.fn.getcwd(),
  get_language_id = function() return 'poise' end,
})
vim.lsp.buf_attach_client(0, client)

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
