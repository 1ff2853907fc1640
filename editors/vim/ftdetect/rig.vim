autocmd BufRead,BufNewFile *.rig setfiletype rig
