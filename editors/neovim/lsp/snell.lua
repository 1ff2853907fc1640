-- A page of Markdown without a fence tagged `rig` needs no server.
local function holds_rigs(buffer)
  if vim.bo[buffer].filetype == 'rig' then return true end
  for _, line in ipairs(vim.api.nvim_buf_get_lines(buffer, 0, -1, false)) do
    if line:match('^[%s>]*[-*+%d.)]*%s*```+%s*rig%f[%W]') or line:match('^[%s>]*[-*+%d.)]*%s*~~~+%s*rig%f[%W]') then
      return true
    end
  end
  return false
end

-- Neovim asks for the findings of a buffer that it changed unseen, as in a rename, only once that is changed again.
local function ask_once_shown(client, buffer)
  vim.api.nvim_create_autocmd('BufWinEnter', {
    buffer = buffer,
    callback = function()
      if not vim.lsp.buf_is_attached(buffer, client.id) then return true end
      local notice = { client_id = client.id, method = 'textDocument/didOpen', params = {} }
      vim.api.nvim_exec_autocmds('LspNotify', { buffer = buffer, modeline = false, data = notice })
    end,
  })
end

---@type vim.lsp.Config
return {
  cmd = { 'snell', 'serve' },
  filetypes = { 'rig', 'markdown' },
  on_attach = ask_once_shown,
  root_dir = function(buffer, found)
    if not holds_rigs(buffer) then return end
    local file = vim.api.nvim_buf_get_name(buffer)
    found(vim.fs.root(buffer, { '.git', '.hg', '.jj' }) or vim.fs.dirname(file))
  end,
}
