" Opens a notebook in Vim, set up as editors/vim says, and writes what is wrong to $TOLD.
"
"   PROJECT=… WATER=… TOLD=… vim -N -u vim.vim -i NONE --not-a-term

set nocompatible noswapfile hidden encoding=utf-8
execute 'set runtimepath+=' . $PROJECT . '/editors/vim'
" Started by hand below, so that nothing else looks at the pages.
let g:ale_linters_explicit = 1
let g:ale_linters = {'rig': ['snell'], 'markdown': ['snell']}
packadd ale
filetype plugin on
syntax on

let s:told = []

function! s:Same(what, seen, wanted) abort
  if a:seen ==# a:wanted
    call add(s:told, 'holds: ' . a:what)
  else
    call add(s:told, 'vim: ' . a:what . ' does not hold; seen: ' . string(a:seen))
  endif
endfunction

function! s:Name(line, column) abort
  return synIDattr(synID(a:line, a:column, 1), 'name')
endfunction

function! s:Linted(name, say, size) abort
  execute 'edit ' . $WATER . '/' . a:name
  ALELint
  let l:turns = 0
  while l:turns < 1200 && len(ale#engine#GetLoclist(bufnr(''))) < 2
    sleep 50m
    let l:turns += 1
  endwhile
  let l:found = map(copy(ale#engine#GetLoclist(bufnr(''))), {_, one -> [one.lnum, one.code]})
  call s:Same(a:name . ': findings stand on their lines', sort(l:found), sort([[a:say, 'name-unknown'], [a:size, 'size-spaced']]))
endfunction

function! s:All() abort
  call s:Linted('beck.rig', 11, 26)
  call s:Same('the kind of file is known', &filetype, 'rig')
  call s:Same('the words have their colours', [s:Name(17, 1), s:Name(20, 3), s:Name(20, 11), s:Name(20, 14), s:Name(11, 12), s:Name(1, 1)],
  \ ['rigKind', 'rigKey', 'rigNumber', 'rigUnit', 'rigText', 'rigComment'])

  execute 'lcd ' . $WATER
  silent make!
  let l:listed = filter(getqflist(), {_, one -> one.valid})
  call s:Same('`:make` lists them', map(l:listed, {_, one -> [one.lnum, one.col]}), [[11, 20], [26, 21]])

  call s:Linted('article.md', 14, 33)

  execute 'edit ' . $WATER . '/days.rig'
  call s:Same('the words of a day at the water have theirs', [s:Name(5, 1), s:Name(5, 9), s:Name(6, 3), s:Name(6, 11), s:Name(6, 20), s:Name(8, 3)],
  \ ['rigKind', 'rigName', 'rigKey', 'rigDay', 'rigDay', 'rigKey'])
endfunction

try
  call s:All()
catch
  call add(s:told, 'vim: ' . v:exception . ' at ' . v:throwpoint)
endtry
call writefile(s:told, $TOLD)
qall!
