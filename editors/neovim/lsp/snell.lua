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

---@type vim.lsp.Config
return {
  cmd = { 'snell', 'serve' },
  filetypes = { 'rig', 'markdown' },
  root_dir = function(buffer, found)
    if not holds_rigs(buffer) then return end
    local file = vim.api.nvim_buf_get_name(buffer)
    found(vim.fs.root(buffer, { '.git', '.hg', '.jj' }) or vim.fs.dirname(file))
  end,
}
