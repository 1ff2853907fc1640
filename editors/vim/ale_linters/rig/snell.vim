" For the plugin ALE: findings, hover, completion, mends and rename from `snell serve`.
call ale#Set('rig_snell_executable', 'snell')

function! ale_linters#rig#snell#Root(buffer) abort
  let l:kept = ale#path#FindNearestDirectory(a:buffer, '.git')
  return empty(l:kept) ? expand('#' . a:buffer . ':p:h') : fnamemodify(l:kept, ':h:h')
endfunction

call ale#linter#Define('rig', {
\ 'name': 'snell',
\ 'lsp': 'stdio',
\ 'executable': {buffer -> ale#Var(buffer, 'rig_snell_executable')},
\ 'command': '%e serve',
\ 'language': 'rig',
\ 'project_root': function('ale_linters#rig#snell#Root'),
\})
