" The `rig` fences of a page; see the linter of rig files.
runtime ale_linters/rig/snell.vim

call ale#linter#Define('markdown', {
\ 'name': 'snell',
\ 'lsp': 'stdio',
\ 'executable': {buffer -> ale#Var(buffer, 'rig_snell_executable')},
\ 'command': '%e serve',
\ 'language': 'markdown',
\ 'project_root': function('ale_linters#rig#snell#Root'),
\})
