" Colours for rig files. The lists of words are made by `cargo refresh`.
if exists('b:current_syntax')
  finish
endif
syntax case ignore

syntax match rigName /\<\a[[:alnum:]-]*\>/ contained
syntax match rigMeasure /\(\k\|-\)\@<!\(@measures@\)\(\k\|-\)\@!/
syntax match rigValue /\(\k\|-\)\@<!\(@values@\)\(\k\|-\)\@!/
syntax match rigColour /\(\k\|-\)\@<!\(@colours@\)\(\k\|-\)\@!/
syntax match rigJoint /\(\k\|-\)\@<!\(@joints@\|from\)\(\k\|-\)\@!/
syntax match rigCondition /\(\k\|-\)\@<!\(at\s\+least\|at\s\+most\|between\|about\|over\|under\|and\|or\|is\(\s\+not\)\?\)\(\k\|-\)\@!/
syntax match rigNumber /\(\k\|-\)\@<!\(\d\+\([.,\/]\d\+\)\?\|\.\d\+\)\(\s\?[¼½¾⅓⅔⅛⅜⅝⅞]\)\?/ nextgroup=rigUnit skipwhite
syntax match rigDay /\(\k\|-\)\@<!\d\{4}[-‑–—−]\d\{2}[-‑–—−]\d\{2}\(\k\|-\)\@!/
syntax match rigSize /#\d\+\([\/.]\d\+\)\?/
syntax match rigUnit /\(\(@units@\)[23²³]\?\(\/\(@units@\)[23²³]\?\)\?\|x\)\(\k\|-\)\@!\|%\|[°º]\s*[cf]\?\|['’′]\{1,2}\|["”″]/ contained
syntax match rigKey /^\s*\zs\(@keys@\)\(\k\|-\)\@!/
syntax match rigForm /^\s*\zs\(@forms@\|add\|remove\|use\)\(\k\|-\)\@!/
syntax match rigKind /^\(@kinds@\)\(\s\+\a\)\@=/ nextgroup=rigName skipwhite
syntax match rigText /\(\d\)\@<!["“”„«»].\{-}["“”„«»]\(\s*\.\?\s*\($\|\/\/\)\)\@=/
syntax match rigComment /\/\/.*$/ contains=@Spell

highlight default link rigComment Comment
highlight default link rigText String
highlight default link rigKind Type
highlight default link rigName Title
highlight default link rigForm Keyword
highlight default link rigKey Identifier
highlight default link rigJoint Statement
highlight default link rigCondition Operator
highlight default link rigNumber Number
highlight default link rigDay Number
highlight default link rigSize Number
highlight default link rigUnit Special
highlight default link rigMeasure Function
highlight default link rigValue Constant
highlight default link rigColour Constant

let b:current_syntax = 'rig'
