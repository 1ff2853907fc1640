" :make lists the findings; it needs no server.
if exists('current_compiler')
  finish
endif
let current_compiler = 'snell'

CompilerSet makeprg=snell\ check\ --form\ lines\ %:S
CompilerSet errorformat=%f:%l:%c:\ fault:\ %m,%f:%l:%c:\ %m
