; The colours of grammar/tree-sitter-rig, by the names that Helix has for them.

(comment) @comment
(text) @string
(block title: (text) @string.special)

["use" "from" "change"] @keyword
(kind) @keyword.storage.type
(bind_key) @keyword
(claim_key) @keyword
(joint) @keyword.operator
(condition) @keyword.operator
(operator) @operator
["=" "-"] @operator
["(" ")"] @punctuation.bracket

(key) @variable.other.member
(block name: (name) @type)
(block base: (name) @type)
(bind name: (name) @variable)
(path (name) @variable)
(target (name) @variable)
(part) @variable.other.member
(call function: (name) @function)

[(number) (size) (count) (day)] @constant.numeric
(unit) @type.builtin

(malformed) @error
