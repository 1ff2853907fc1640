vim.filetype.add({ extension = { rig = 'rig' } })
vim.lsp.enable('snell')
