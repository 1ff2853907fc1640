vim.bo.commentstring = '// %s'
vim.bo.expandtab = true
vim.bo.shiftwidth = 2
vim.opt_local.iskeyword:append('-')

-- With the grammar for tree-sitter in place its colours are better; without it those of `editors/vim` stay.
pcall(vim.treesitter.start)
